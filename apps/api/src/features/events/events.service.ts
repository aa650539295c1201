import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
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
    return this.database.inYard(viewer, async (tx) => {
      const latest = await tx.event.aggregate({
        where: { yardId: viewer.yardId },
        _max: { id: true },
      });
      return latest._max.id ?? 0n;
    });
  }
}
