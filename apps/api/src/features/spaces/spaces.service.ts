import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Space, SpaceInput, SpacePatch } from './spaces.contract.ts';
import { deleteSpace, findSpace, insertSpace, listSpaces, updateSpace } from './spaces.store.ts';

@Injectable()
export class SpacesService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Space>> {
    return this.database.inYard(viewer, (tx) => listSpaces(tx, viewer.yardId, page));
  }

  get(viewer: Viewer, id: string): Promise<Space> {
    return this.database.inYard(viewer, (tx) => findSpace(tx, viewer.yardId, id));
  }

  create(viewer: Viewer, input: SpaceInput): Promise<Space> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'spaces', input));
      await insertSpace(tx, yardId, input);
      await appendEvent(tx, viewer, 'space-added', 'space', input.id);
      return findSpace(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: SpacePatch): Promise<Space> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = patched(await findSpace(tx, yardId, id), patch);
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'spaces', changed));
      await updateSpace(tx, yardId, revision, changed);
      await appendEvent(tx, viewer, 'space-changed', 'space', id);
      return findSpace(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findSpace(tx, yardId, id);
      await deleteSpace(tx, yardId, id, revision);
      await appendEvent(tx, viewer, 'space-removed', 'space', id);
    });
  }
}
