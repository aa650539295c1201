import { Inject, Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { createClient, inYard, type Transaction, withoutYard } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import type { Viewer } from '../access/viewer.ts';
import { type Config, configToken } from '../config/config.ts';

export type Tx = Transaction;

/** The one way to the database: all work is a transaction that says for whom it is. */
@Injectable()
export class Database implements OnApplicationShutdown {
  readonly #client: PrismaClient;

  constructor(@Inject(configToken) config: Config) {
    this.#client = createClient(config.databaseUrl);
  }

  /**
   * `work` may run more than once (after a deadlock), so it changes nothing but `tx`. The service
   * itself is no member.
   */
  inYard<T>(
    { yardId, memberId }: Pick<Viewer, 'yardId'> & { readonly memberId: string | null },
    work: (tx: Tx) => Promise<T>,
  ): Promise<T> {
    return inYard(this.#client, { yardId, personId: memberId }, work);
  }

  /** Accounts, sessions, memberships and the list of yards. */
  outsideYards<T>(work: (tx: Tx) => Promise<T>): Promise<T> {
    return withoutYard(this.#client, work);
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
