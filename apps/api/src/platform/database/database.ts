import { Inject, Injectable, type OnApplicationShutdown, type OnModuleInit } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { OutsideDb } from '#persistence/access/lookups.ts';
import {
  asAccount,
  createClient,
  inYard,
  nowhere,
  service,
  type Transaction,
  type TransactionOptions,
} from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { assertSecondWall } from '#persistence/reach.ts';
import type { Viewer } from '../access/viewer.ts';
import { type Config, configToken } from '../config/config.ts';
import { underKey } from '../idempotency/keyed-command.ts';

export type Tx = Transaction;

/**
 * For reads of rows together with people who may be removed meanwhile: Prisma reads the two by
 * separate statements, and a row whose person is gone by the second has null where the types have none.
 */
export const oneSnapshot = { isolationLevel: 'RepeatableRead' } as const;

/**
 * The one way to the database: all work is a transaction that says for whom it is. `work` may run
 * more than once (after a deadlock), so it changes nothing but `tx`.
 */
@Injectable()
export class Database implements OnModuleInit, OnApplicationShutdown {
  readonly #client: PrismaClient;

  constructor(@Inject(configToken) private readonly config: Config) {
    this.#client = createClient(config.databaseUrl, config.timeouts);
  }

  /** Nothing is served over a connection that could look past the wall. */
  onModuleInit(): Promise<void> {
    return assertSecondWall(this.config.databaseUrl);
  }

  /**
   * As a member of the yard: the database checks that the account is one, and who. `timeout`, ms: of
   * work that takes longer than most.
   */
  inYard<T>(
    { yardId, accountId, sees }: Pick<Viewer, 'yardId' | 'accountId' | 'sees'>,
    work: (tx: Tx) => Promise<T>,
    options: Pick<TransactionOptions, 'timeout' | 'isolationLevel'> = {},
  ): Promise<T> {
    const actor = { as: 'member', yardId, accountId, sees } as const;
    return underKey(yardId, (tied) => inYard(this.#client, actor, tied, options), work);
  }

  /** In a yard that does not exist yet, by the account that will be the member `memberId` of it. */
  founding<T>(
    { yardId, accountId, memberId }: Pick<Viewer, 'yardId' | 'accountId' | 'memberId'>,
    work: (tx: Tx) => Promise<T>,
  ): Promise<T> {
    const founder = { as: 'member', yardId, accountId, sees: 'all', founder: memberId } as const;
    return inYard(this.#client, founder, work);
  }

  /** In the yard, for nobody who is in it. */
  asService<T>(yardId: string, work: (tx: Tx) => Promise<T>): Promise<T> {
    return underKey(yardId, (tied) => inYard(this.#client, service(yardId), tied), work);
  }

  /** What belongs to the account; its memberships and their yards can be read. */
  asAccount<T>(accountId: string, work: (tx: Tx) => Promise<T>): Promise<T> {
    return asAccount(this.#client, accountId, work);
  }

  /** Sees nothing; for several lookups that belong together, or `enter` on the way. */
  nowhere<T>(work: (tx: Tx) => Promise<T>): Promise<T> {
    return nowhere(this.#client, work);
  }

  /** One of the lookups by a secret, as one statement of its own. */
  lookUp<T>(ask: (db: OutsideDb) => Promise<T>): Promise<T> {
    return ask(this.#client);
  }

  async ping(): Promise<void> {
    try {
      await this.#client.$queryRaw`SELECT 1`;
    } catch {
      throw new DomainError('service.unavailable', 'The database does not answer.');
    }
  }

  async onApplicationShutdown(): Promise<void> {
    await this.#client.$disconnect();
  }
}
