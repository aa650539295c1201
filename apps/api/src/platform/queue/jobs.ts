import {
  Inject,
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnApplicationShutdown,
} from '@nestjs/common';
import { fromPrisma, type PgBoss } from 'pg-boss';
import { createBoss } from '#persistence/queue/boss.ts';
import { type Config, configToken } from '../config/config.ts';
import type { Tx } from '../database/database.ts';

export interface JobOptions {
  /** A UUID; a job whose id the queue knows already is not put in again. */
  readonly id?: string;
  /** Not to be done before; left out: at once. */
  readonly startAfter?: Date;
  /** Of a queue whose policy goes by it. */
  readonly singletonKey?: string;
}

/** The way to the workers; what it does is part of the caller's transaction. */
@Injectable()
export class Jobs implements OnApplicationBootstrap, OnApplicationShutdown {
  readonly #boss: PgBoss;

  constructor(@Inject(configToken) { databaseUrl }: Config) {
    const log = new Logger('queue');
    this.#boss = createBoss(databaseUrl, {
      role: 'sender',
      onError: (error) => log.error(error.message),
    });
  }

  async onApplicationBootstrap(): Promise<void> {
    await this.#boss.start();
  }

  async onApplicationShutdown(): Promise<void> {
    await this.#boss.stop({ graceful: false });
  }

  /** The job's id; null where the queue holds one like it already. */
  add(tx: Tx, queue: string, data: object, options: JobOptions = {}): Promise<string | null> {
    return this.#boss.send(queue, data, { ...options, db: fromPrisma(tx) });
  }

  /** Takes back a job that no worker has begun. */
  async cancel(tx: Tx, queue: string, id: string): Promise<void> {
    await this.#boss.cancel(queue, id, { db: fromPrisma(tx) });
  }
}
