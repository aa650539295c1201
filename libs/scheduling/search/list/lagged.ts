import type { Packing } from './packing.ts';
import type { Scheme } from './scheme.ts';

/** What lags say in one direction of time. All matrices by activity, by the other activity. */
export interface Lags {
  /** `[i, k]`: i starts no earlier than so long after k; `NO_PATH`: nothing is said. */
  readonly after: Int32Array;
  /** `[i, k]`: k starts no earlier than so long after i. */
  readonly ahead: Int32Array;
  /** Earliest and latest starts. */
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
  /** The makespan is at least so much after the finish; far below zero where nothing is said. */
  readonly rest: Int32Array;
}

/** A pure problem with minimum and maximum lags, closed. */
export interface Lagged extends Scheme {
  readonly lags: readonly [Lags, Lags];
  readonly packing: Packing;
  readonly horizon: number;
}
