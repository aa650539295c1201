import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { assertFits } from '../soundness/soundness.service.ts';
import type { Refit, RefitInput, RefitPatch } from './boats.contract.ts';
import { findBoat } from './boats.store.ts';
import { deleteRefit, findRefit, insertRefit, updateRefit } from './refits.store.ts';
import { withRefit } from './placing.ts';
import { makeTasks } from '../workload/workload.service.ts';

@Injectable()
export class RefitsService {
  constructor(private readonly database: Database) {}

  get(viewer: Viewer, id: string): Promise<Refit> {
    return this.database.inYard(viewer, (tx) => findRefit(tx, viewer.yardId, id));
  }

  /** With its parts and jobs where they are given; the jobs make their tasks. */
  create(viewer: Viewer, boatId: string, input: RefitInput): Promise<Refit> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findBoat(tx, yardId, boatId);
      await assertFits(tx, yardId, (yard) => withRefit(yard, input, boatId));
      await insertRefit(tx, yardId, boatId, input);
      await makeTasks(tx, yardId);
      await appendEvent(tx, viewer, 'refit-added', 'refit', input.id);
      return findRefit(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: RefitPatch): Promise<Refit> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = patched(await findRefit(tx, yardId, id), patch);
      await assertFits(tx, yardId, (yard) => withRefit(yard, changed));
      await updateRefit(tx, yardId, id, revision, changed);
      await appendEvent(tx, viewer, 'refit-changed', 'refit', id);
      return findRefit(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findRefit(tx, yardId, id);
      await deleteRefit(tx, yardId, id, revision);
      await appendEvent(tx, viewer, 'refit-removed', 'refit', id);
    });
  }
}
