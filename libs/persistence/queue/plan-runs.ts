import { fromPrisma, type PgBoss } from 'pg-boss';
import type { Transaction } from '../client.ts';

/** What a job says; everything else is in the run's row. The job has the run's id. */
export interface PlanRunJob {
  readonly yardId: string;
  readonly runId: string;
}

/** A run may take an hour (`longestSeconds`), and its job half an hour more for all around it. */
export const longestSeconds = 3600;

export const planRunQueue = {
  name: 'plan-run',
  /** Where the job goes when every try has failed: its run is then marked as failed. */
  givenUp: 'plan-run-given-up',
  /** Without a sign of life for so long a worker counts as dead; pg-boss takes no less. */
  heartbeatSeconds: 10,
  /** A worker that died, or gave the job back to end itself, is one try. */
  retryLimit: 5,
  retryDelay: 1,
  expireInSeconds: longestSeconds + 1800,
  deleteAfterSeconds: 24 * 3600,
} as const;

/** Puts the job beside the run, in the very transaction that makes the run. */
export async function enqueuePlanRun(
  boss: PgBoss,
  tx: Transaction,
  job: PlanRunJob,
): Promise<void> {
  const options = { id: job.runId, db: fromPrisma(tx) };
  const id = await boss.send(planRunQueue.name, job, options);
  if (id !== job.runId) throw new Error(`The queue did not take the plan run ${job.runId}`);
}

/** Takes back a job that no worker has begun. */
export async function cancelPlanRun(boss: PgBoss, tx: Transaction, runId: string): Promise<void> {
  await boss.cancel(planRunQueue.name, runId, { db: fromPrisma(tx) });
}
