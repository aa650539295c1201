import {
  Inject,
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnApplicationShutdown,
} from '@nestjs/common';
import type { PgBoss } from 'pg-boss';
import { createBoss } from '#persistence/queue/boss.ts';
import { cancelPlanRun, enqueuePlanRun, type PlanRunJob } from '#persistence/queue/plan-runs.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import type { Tx } from '../../platform/database/database.ts';

/** The way to the workers; what it does is part of the caller's transaction. */
@Injectable()
export class PlanRunQueue implements OnApplicationBootstrap, OnApplicationShutdown {
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

  add(tx: Tx, job: PlanRunJob): Promise<void> {
    return enqueuePlanRun(this.#boss, tx, job);
  }

  cancel(tx: Tx, runId: string): Promise<void> {
    return cancelPlanRun(this.#boss, tx, runId);
  }
}
