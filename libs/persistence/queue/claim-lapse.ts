/** That a claim may be due to lapse; whether it is, the task's row says when the time has come. */
export interface ClaimLapseJob {
  readonly yardId: string;
  readonly taskId: string;
}

export const claimLapseQueue = {
  name: 'claim-lapse',
  retryLimit: 5,
  retryDelay: 2,
  retryBackoff: true,
  expireInSeconds: 60,
  deleteAfterSeconds: 3600,
} as const;
