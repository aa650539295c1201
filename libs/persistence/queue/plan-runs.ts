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
