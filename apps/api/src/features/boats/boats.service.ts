import { Injectable } from '@nestjs/common';
import { seesOwnBoatsOnly, type Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Boat, BoatInput, BoatPatch } from './boats.contract.ts';
import { deleteBoat, findBoat, insertBoat, listBoats, updateBoat } from './boats.store.ts';
import { makeTasks } from '../workload/workload.service.ts';

@Injectable()
export class BoatsService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Boat>> {
    return this.database.inYard(viewer, (tx) =>
      listBoats(tx, viewer.yardId, page, ownerFilter(viewer)),
    );
  }

  get(viewer: Viewer, id: string): Promise<Boat> {
    return this.database.inYard(viewer, (tx) =>
      findBoat(tx, viewer.yardId, id, ownerFilter(viewer)),
    );
  }

  /** With its refits, parts and jobs where they are given; the jobs make their tasks. */
  create(viewer: Viewer, input: BoatInput): Promise<Boat> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'boats', input));
      await insertBoat(tx, yardId, input);
      await makeTasks(tx, yardId);
      await appendEvent(tx, viewer, 'boat-added', 'boat', input.id);
      return findBoat(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: BoatPatch): Promise<Boat> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const changed = patched(await findBoat(tx, yardId, id), patch);
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'boats', changed));
      await updateBoat(tx, yardId, id, revision, changed);
      await appendEvent(tx, viewer, 'boat-changed', 'boat', id);
      return findBoat(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findBoat(tx, yardId, id);
      await deleteBoat(tx, yardId, id, revision);
      await appendEvent(tx, viewer, 'boat-removed', 'boat', id);
    });
  }
}

function ownerFilter(viewer: Viewer): { ownerId?: string } {
  return seesOwnBoatsOnly(viewer) ? { ownerId: viewer.memberId } : {};
}
