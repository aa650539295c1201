import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Material, MaterialInput, MaterialPatch } from './materials.contract.ts';
import {
  deleteMaterial,
  findMaterial,
  insertMaterial,
  listMaterials,
  updateMaterial,
} from './materials.store.ts';

@Injectable()
export class MaterialsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Material>> {
    return this.database.inYard(viewer, (tx) => listMaterials(tx, viewer.yardId, page));
  }

  get(viewer: Viewer, id: string): Promise<Material> {
    return this.database.inYard(viewer, (tx) => findMaterial(tx, viewer.yardId, id));
  }

  create(viewer: Viewer, input: MaterialInput): Promise<Material> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'materials', input));
      await insertMaterial(tx, yardId, input);
      await appendEvent(tx, viewer, 'material-added', 'material', input.id);
      return findMaterial(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: MaterialPatch): Promise<Material> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = patched(await findMaterial(tx, yardId, id), patch);
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'materials', changed));
      await updateMaterial(tx, yardId, revision, changed);
      await appendEvent(tx, viewer, 'material-changed', 'material', id);
      return findMaterial(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findMaterial(tx, yardId, id);
      await deleteMaterial(tx, yardId, id, revision);
      await appendEvent(tx, viewer, 'material-removed', 'material', id);
    });
  }
}
