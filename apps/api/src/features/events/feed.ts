import { Injectable, Logger, type OnApplicationBootstrap } from '@nestjs/common';
import { Database } from '../../platform/database/database.ts';
import { Notices } from '../../platform/streams/notices.ts';
import type { LoggedEvent } from './logged-event.ts';
import { YardTail } from './tail.ts';

/** The database tells it of every committed event, `<yardId>:<id>`. */
const channel = 'curewright_event';

interface SharedTail {
  readonly tail: YardTail;
  followers: number;
}

/** The logs of all yards that somebody follows in this process, kept current by the database. */
@Injectable()
export class EventFeed implements OnApplicationBootstrap {
  readonly #tails = new Map<string, SharedTail>();
  readonly #log = new Logger('events');

  constructor(
    private readonly database: Database,
    private readonly notices: Notices,
  ) {}

  async onApplicationBootstrap(): Promise<void> {
    await this.notices.listen(
      channel,
      (told) => this.#tails.get(told.slice(0, told.lastIndexOf(':')))?.tail.nudge(),
      () => {
        for (const { tail } of this.#tails.values()) tail.nudge();
      },
    );
  }

  /** The yard's events above `after`, then those to come, until `left` is aborted. */
  async *follow(
    yardId: string,
    after: bigint,
    left: AbortSignal,
  ): AsyncGenerator<LoggedEvent, void> {
    const shared = this.#tails.get(yardId) ?? this.#open(yardId, after);
    shared.followers += 1;
    try {
      let last = after;
      while (!left.aborted) {
        for (const event of await shared.tail.after(last, left)) {
          yield event;
          last = event.id;
        }
      }
    } finally {
      shared.followers -= 1;
      if (shared.followers === 0) this.#tails.delete(yardId);
    }
  }

  #open(yardId: string, from: bigint): SharedTail {
    const read = (after: bigint, take: number): Promise<LoggedEvent[]> =>
      this.database.asService(yardId, (tx) =>
        tx.event.findMany({
          where: { yardId, id: { gt: after } },
          orderBy: { id: 'asc' },
          take,
        }),
      );
    const tail = new YardTail(from, read, (error) => this.#log.error(error));
    const shared = { tail, followers: 0 };
    this.#tails.set(yardId, shared);
    // What was committed before this moment was told to nobody here.
    tail.nudge();
    return shared;
  }
}
