import { setTimeout as sleep } from 'node:timers/promises';
import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { leavable } from '../../platform/streams/leavable.ts';
import { EventsService } from '../events/events.service.ts';
import type { MyBoatChanged } from './my-boats.contract.ts';
import { fingerprints } from './fingerprints.ts';

/** Events come in swarms: what they make of a boat is looked at once for all of a moment. */
const settleMs = 300;

/** What an event can be about that an owner sees something of. */
const subjects: ReadonlySet<string> = new Set([
  'boat',
  'refit',
  'part',
  'job',
  'task',
  'plan',
  'change',
  'snag',
  'photo',
  'yard',
]);

/** Word for owners that something about their boats has changed. */
@Injectable()
export class MyBoatChangesService {
  constructor(
    private readonly database: Database,
    private readonly events: EventsService,
  ) {}

  /**
   * Says which of the own boats is not what it was, by what their owner reads of them: what happens to
   * others passes unsaid, that it happened too. After `after` all of them are said once.
   */
  async follow(
    viewer: Viewer,
    after: bigint | null,
  ): Promise<AsyncIterableIterator<MyBoatChanged, void>> {
    const { database, events } = this;
    const look = async (): Promise<{ upTo: bigint; boats: Map<string, string> }> => {
      // The log first: what it has by now is in what is read of the boats after it.
      const upTo = await events.latestOfAll(viewer.yardId);
      return { upTo, boats: await database.inYard(viewer, (tx) => fingerprints(tx, viewer)) };
    };
    const begun = await look();
    return leavable(async function* (left) {
      let known = begun;
      if (after !== null && known.boats.size > 0) yield said(known.upTo, [...known.boats.keys()]);
      for await (const { id, subject } of events.followAll(viewer.yardId, begun.upTo, left)) {
        if (id <= known.upTo || !subjects.has(subject)) continue;
        await sleep(settleMs, undefined, { signal: left }).catch(() => undefined);
        if (left.aborted) return;
        const now = await look();
        const changed = differing(known.boats, now.boats);
        known = now;
        if (changed.length > 0) yield said(now.upTo, changed);
      }
    });
  }
}

const said = (upTo: bigint, boatIds: string[]): MyBoatChanged => ({
  eventId: String(upTo),
  boatIds,
});

/** Boats that are not what they were, are new, or are the viewer's no more. */
function differing(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>) {
  const all = new Set([...before.keys(), ...after.keys()]);
  return [...all].filter((id) => before.get(id) !== after.get(id));
}
