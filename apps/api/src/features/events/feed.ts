import {
  Inject,
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnApplicationShutdown,
} from '@nestjs/common';
import postgres from 'postgres';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database } from '../../platform/database/database.ts';
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
export class EventFeed implements OnApplicationBootstrap, OnApplicationShutdown {
  readonly #tails = new Map<string, SharedTail>();
  readonly #log = new Logger('events');
  #listener: postgres.Sql | undefined;

  constructor(
    @Inject(configToken) private readonly config: Config,
    private readonly database: Database,
  ) {}

  async onApplicationBootstrap(): Promise<void> {
    this.#listener = postgres(this.config.databaseUrl, {
      max: 1,
      onnotice: () => undefined,
      connection: { application_name: 'curewright-events' },
    });
    await this.#listener.listen(
      channel,
      (told) => this.#tails.get(told.slice(0, told.lastIndexOf(':')))?.tail.nudge(),
      // At each (re)connection: what was told in between was not heard.
      () => {
        for (const { tail } of this.#tails.values()) tail.nudge();
      },
    );
  }

  async onApplicationShutdown(): Promise<void> {
    await this.#listener?.end({ timeout: 1 });
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
      this.database.inYard({ yardId, memberId: null }, (tx) =>
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
