/** What a job says: the proposal to be priced, and who asked for it. */
export interface PriceJob {
  readonly yardId: string;
  readonly proposalId: string;
  /** A member. */
  readonly askedBy: string;
}

export const priceQueue = {
  name: 'price',
  /** Where the job goes when every try has failed: the proposal then says so. */
  givenUp: 'price-given-up',
  heartbeatSeconds: 10,
  retryLimit: 3,
  retryDelay: 1,
  /** Up to four searches of some seconds each, and all around them. */
  expireInSeconds: 300,
  deleteAfterSeconds: 24 * 3600,
} as const;
