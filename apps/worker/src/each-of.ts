import type { Job, JobResult } from 'pg-boss';

/** How one job of a batch ended: one that fails takes no other with it. */
export async function resultOf<T>(
  job: Job<T>,
  work: (data: T) => Promise<void>,
): Promise<JobResult> {
  try {
    await work(job.data);
    return { id: job.id, status: 'completed' };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { id: job.id, status: 'failed', output: { message } };
  }
}

/** One after the other. */
export async function inTurn<T>(
  jobs: readonly Job<T>[],
  work: (data: T) => Promise<void>,
): Promise<JobResult[]> {
  const results: JobResult[] = [];
  for (const job of jobs) results.push(await resultOf(job, work));
  return results;
}

/** Settings of a queue whose jobs are short and come in bursts; pg-boss looks no more often. */
export const inBursts = {
  pollingIntervalSeconds: 0.5,
  batchSize: 20,
  burstWhenBatchFull: true,
  perJobResults: true,
} as const;
