import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { toMaterialVersion } from '#persistence/yard/material-versions.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { observedMaterials } from '#planning/compile/observed/observed.ts';
import { frameOf } from '#planning/compile/frame/time.ts';
import { showEffective } from '../../effective-sheet.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { withoutRevision } from '../../platform/shapes/record.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Material, MaterialInput, MaterialPatch } from './materials.contract.ts';
import type { MaterialSheet, MaterialVersionList } from './sheet.contract.ts';
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

  sheet(viewer: Viewer, id: string): Promise<MaterialSheet> {
    return this.database.inYard(viewer, async (tx) => {
      const { cautions, isocyanate } = await findMaterial(tx, viewer.yardId, id);
      const yard = await loadYard(tx, viewer.yardId);
      const { materials } = observedMaterials(yard, frameOf(yard, undefined, undefined));
      const material = materials.get(id);
      if (!material) throw new Error(`The material ${id} is stored but not in its yard`);
      const own = cautions.map((text) => ({ text, source: 'the yard’s own sheet' }));
      return { id, ...showEffective(material, { isocyanate, cautions: own }) };
    });
  }

  /** Those of a material that was deleted are kept as well. */
  versions(viewer: Viewer, id: string): Promise<MaterialVersionList> {
    return this.database.inYard(viewer, async (tx) => {
      const rows = await tx.materialVersion.findMany({
        where: { yardId: viewer.yardId, materialId: id },
        orderBy: { version: 'desc' },
      });
      if (rows.length === 0)
        throw new DomainError('record.missing', `There is no material "${id}".`);
      return { items: rows.map((row) => ({ ...toMaterialVersion(row) })) };
    });
  }

  create(viewer: Viewer, input: MaterialInput): Promise<Material> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'materials', input));
      await insertMaterial(tx, yardId, input, viewer.memberId);
      await appendEvent(tx, viewer, 'material-added', 'material', input.id);
      return findMaterial(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: MaterialPatch): Promise<Material> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = withoutRevision(patched(await findMaterial(tx, yardId, id), patch));
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'materials', changed));
      await updateMaterial(tx, yardId, revision, changed, viewer.memberId);
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
