import type { Literals } from './literal.ts';

/** A bound whose rise a propagator is told of, with the datum it is told. */
export interface Watch {
  readonly bound: number;
  readonly datum: number;
}

/**
 * A rule over bounds that is run when nothing cheaper is left. It raises bounds through
 * `trail.raise(b, v, reason, detail)`, `reason` being the code it was made with, and can tell
 * afterwards why: `explain` is asked while the trail is rolled back, so that every bound has the
 * value that it had when the rise was made, and any `v` up to the value raised to may be asked for.
 */
export interface Propagator {
  readonly watches: readonly Watch[];
  /** Runs before propagators of a higher cost: 0 for a few steps, 3 for the dearest. */
  readonly cost: 0 | 1 | 2 | 3;
  /** After a rise of a watched bound. True if it was idle and must now be run. */
  notice(datum: number): boolean;
  /**
   * Draws its conclusions from what was noticed. False on conflict: true literals that cannot hold
   * together are then in `conflict`, or it is empty and a rise met its opposite bound.
   */
  propagate(conflict: Literals): boolean;
  /** Appends to `out` true literals from which (b, v) follows, in the state before it did. */
  explain(b: number, v: number, detail: number, out: Literals): void;
  /** After bounds fell, if it ran since this was last called. */
  rewind(): void;
  /** After a conflict, if it waited or failed: what was noticed since the last run is dropped. */
  drop(): void;
}
