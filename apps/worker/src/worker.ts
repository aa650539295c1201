import { createClient } from '#persistence/client.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { type PlanRunJob, planRunQueue } from '#persistence/queue/plan-runs.ts';
import { assertSecondWall } from '#persistence/reach.ts';
import type { Config } from './config.ts';
import { jobRules } from './job-rules.ts';
import { giveUpRun } from './plan-runs/give-up.ts';
import { handlePlanRun } from './plan-runs/handle.ts';

export interface WorkerOptions extends Config {
  /** Where a line about what happens goes. */
  readonly say: (line: string) => void;
}

export interface Worker {
  /** Gives runs in hand back to the queue and lets go of the database. */
  stop(): Promise<void>;
}

/** pg-boss looks no more often. */
const pollSeconds = 0.5;
/** A thread is told to stop within milliseconds; the rest is writing down that it was. */
const stopMs = 8_000;
/** A plan and its rows are written in one go; nobody waits at a screen for it. */
const statementMs = 120_000;

/** Starts taking plan runs from the queue of the database at `databaseUrl`. */
export async function startWorker({
  databaseUrl,
  concurrency,
  threads,
  memoryMB,
  say,
}: WorkerOptions): Promise<Worker> {
  const rules = jobRules([planRunQueue.name, planRunQueue.givenUp]);
  await assertSecondWall(databaseUrl);
  const prisma = createClient(databaseUrl, { connections: concurrency + 2, statementMs });
  const shutdown = new AbortController();
  const boss = createBoss(databaseUrl, {
    role: 'worker',
    onError: (error) => say(`queue: ${error.message}`),
  });
  const close = async (): Promise<void> => {
    await boss.stop({ graceful: true, timeout: stopMs });
    await prisma.$disconnect();
  };
  try {
    await boss.start();
    await boss.work<PlanRunJob>(
      planRunQueue.name,
      {
        pollingIntervalSeconds: pollSeconds,
        heartbeatRefreshSeconds: 3,
        localConcurrency: concurrency,
      },
      async ([job]) => {
        const rule = rules[planRunQueue.name];
        const signal = shutdown.signal;
        await handlePlanRun({ prisma, say, shutdown: signal, threads, memoryMB, rule }, job);
      },
    );
    await boss.work<PlanRunJob>(
      planRunQueue.givenUp,
      { pollingIntervalSeconds: pollSeconds },
      async ([job]) => giveUpRun(prisma, job.data),
    );
  } catch (error) {
    await close();
    throw error;
  }
  return {
    stop: () => {
      const closed = close();
      shutdown.abort();
      return closed;
    },
  };
}
