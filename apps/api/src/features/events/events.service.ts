import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { leavable } from '../../platform/streams/leavable.ts';
import { EventFeed } from './feed.ts';
import { type LoggedEvent, maySee } from './logged-event.ts';

@Injectable()
export class EventsService {
  constructor(
    private readonly database: Database,
    private readonly feed: EventFeed,
  ) {}

  /**
   * What happens in the yard, as far as the viewer may see it: after the event `after`, or from
   * now on. Nothing is missed in between; it ends when the reader leaves.
   */
  async follow(
    viewer: Viewer,
    after: bigint | null,
  ): Promise<AsyncIterableIterator<LoggedEvent, void>> {
    // Asked as the viewer in any case: the feed reads as the service, for everybody at once.
    const latest = await this.latest(viewer);
    const from = after ?? latest;
    const { feed } = this;
    return leavable(async function* (left) {
      for await (const event of feed.follow(viewer.yardId, from, left)) {
        if (maySee(viewer, event)) yield event;
      }
    });
  }

  /** The id of the yard's last event; 0 where there is none. */
  latest(viewer: Viewer): Promise<bigint> {
    return this.database.inYard(viewer, (tx) => latestIn(tx, viewer.yardId));
  }

  /** All that happens in the yard, for whoever makes of it what somebody may see. */
  followAll(yardId: string, after: bigint, left: AbortSignal): AsyncGenerator<LoggedEvent, void> {
    return this.feed.follow(yardId, after, left);
  }

  /** As `latest`, of all events. */
  latestOfAll(yardId: string): Promise<bigint> {
    return this.database.asService(yardId, (tx) => latestIn(tx, yardId));
  }
}

async function latestIn(tx: Tx, yardId: string): Promise<bigint> {
  const latest = await tx.event.aggregate({ where: { yardId }, _max: { id: true } });
  return latest._max.id ?? 0n;
}
