/**
 * How far a number can be trusted: read in a published page; taken from public code that names
 * its paper; calculated here from stated inputs; from memory; common practice without a source;
 * from the yard's own data sheet; or measured in the yard.
 */
export const TRUSTS = [
  'read',
  'code',
  'calculated',
  'memory',
  'practice',
  'sheet',
  'measured',
] as const;

export type Trust = (typeof TRUSTS)[number];

/** Where a number comes from, as a person would look it up, and how far it can be trusted. */
export interface Evidence {
  readonly trust: Trust;
  readonly source: string;
}

/**
 * A number with its evidence and spread. Of a quantity with a true zero (times, ratios,
 * densities) the spread is a factor of at least 1: the truth is taken to lie between
 * value / spread and value * spread. Of temperatures and humidities it is plus or minus so
 * many degrees or points, at least 0.
 */
export interface Figure extends Evidence {
  readonly value: number;
  readonly spread: number;
  /** True where the yard put its own number in the place of the class's. */
  readonly overridden: boolean;
}
