import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { loadOwnPublishings } from '#persistence/plan/own-publishings.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { changesSince, doneSince, snagsSince } from './history.store.ts';
import type { MyBoatHistory, MyBoatHistoryQuery } from './my-boats.contract.ts';
import { ownBoats } from './my-boats.store.ts';
import { changeItems, snagItems, workItems } from './told/happened.ts';
import { finishesMoved, planItems } from './told/planned.ts';

const dayMs = 24 * 60 * 60_000;
const usualDays = 7;
const mostDays = 92;

/** What has become of a boat, and why, as its owner may know it. */
@Injectable()
export class MyBoatHistoryService {
  constructor(private readonly database: Database) {}

  history(viewer: Viewer, id: string, input: MyBoatHistoryQuery): Promise<MyBoatHistory> {
    const { yardId, memberId } = viewer;
    const since = sinceOf(input, Date.now());
    return this.database.inYard(viewer, async (tx) => {
      const { boats, timeZone } = await ownBoats(tx, yardId, memberId);
      const boat = boats.find((own) => own.id === id);
      if (!boat) throw new DomainError('record.missing', `You have no boat "${id}" here.`);
      const publishings = await loadOwnPublishings(tx, since);
      const of = { yardId, boatId: id, since };
      const items = [
        ...planItems(publishings, { boatId: id, since, timeZone }),
        ...workItems(await doneSince(tx, of), timeZone),
        ...snagItems(await snagsSince(tx, of), timeZone),
        ...changeItems(await changesSince(tx, of), { since, memberId, timeZone }),
      ];
      return {
        boatId: id,
        since: since.toISOString(),
        finishes: finishesMoved(publishings, { boatId: id, since, timeZone }),
        items: items.sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : 0)),
      };
    });
  }
}

/** Throws `input.field` for what is too long ago. */
function sinceOf({ since }: MyBoatHistoryQuery, now: number): Date {
  if (since === undefined) return new Date(now - usualDays * dayMs);
  const at = Date.parse(since);
  if (at >= now - mostDays * dayMs) return new Date(Math.min(at, now));
  const message = `more than ${String(mostDays)} days ago`;
  const cure = `Ask for the last ${String(mostDays)} days at most.`;
  const faults = [fault('input.field', 'since', message, { value: since, cure })];
  throw new DomainError('input.field', `since: ${message}`, { cure, faults });
}
