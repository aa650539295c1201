import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { assertFits } from '../soundness/soundness.service.ts';
import type { Part, PartInput, PartPatch } from './boats.contract.ts';
import { deletePart, findPart, insertPart, updatePart } from './parts.store.ts';
import { withPart } from './placing.ts';
import { findRefit } from './refits.store.ts';
import { makeTasks, resizeTasks } from '../workload/workload.service.ts';

@Injectable()
export class PartsService {
  constructor(private readonly database: Database) {}

  get(viewer: Viewer, id: string): Promise<Part> {
    return this.database.inYard(viewer, (tx) => findPart(tx, viewer.yardId, id));
  }

  /** With its jobs where they are given; they make their tasks. */
  create(viewer: Viewer, refitId: string, input: PartInput): Promise<Part> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findRefit(tx, yardId, refitId);
      await assertFits(tx, yardId, (yard) => withPart(yard, input, refitId));
      await insertPart(tx, yardId, refitId, input);
      await makeTasks(tx, yardId);
      await appendEvent(tx, viewer, 'part-added', 'part', input.id);
      return findPart(tx, yardId, input.id);
    });
  }

  /** Tasks of the part that nobody has begun get its new size; the others keep theirs. */
  update(viewer: Viewer, id: string, revision: number, patch: PartPatch): Promise<Part> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = patched(await findPart(tx, yardId, id), patch);
      await assertFits(tx, yardId, (yard) => withPart(yard, changed));
      await updatePart(tx, yardId, id, revision, changed);
      const resized = await resizeTasks(tx, yardId, id);
      await appendEvent(tx, viewer, 'part-changed', 'part', id, { resizedTasks: resized });
      return findPart(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findPart(tx, yardId, id);
      await deletePart(tx, yardId, id, revision);
      await appendEvent(tx, viewer, 'part-removed', 'part', id);
    });
  }
}
