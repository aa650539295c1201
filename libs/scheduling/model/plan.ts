import type { Interval } from './problem.ts';

/** Who serves which of the mode's crew demands (index into `mode.crew`). */
export interface Assignment {
  readonly builder: number;
  readonly demand: number;
}

/**
 * One activity in time. `segments` are the working spans. Work that runs in one piece
 * (not splittable, without a crew, or frozen) has one segment [start, finish). Splittable
 * work has the common working time of its crew from start to finish, touching spans
 * merged. Zero minutes of work occupy nothing and have no segment.
 */
export interface Placement {
  readonly activity: number;
  readonly mode: number;
  readonly start: number;
  readonly finish: number;
  readonly segments: readonly Interval[];
  readonly crew: readonly Assignment[];
}

/** The answer to a problem. Placements are sorted by activity; absent activities have none. */
export interface Plan {
  readonly placements: readonly Placement[];
  /** The branch taken, by choice. */
  readonly branches: readonly number[];
  /** Finish of each refit, minutes. */
  readonly finishes: readonly number[];
  /** Values of the ranks: [weighted lateness, weighted finishes]. */
  readonly values: readonly [number, number];
}

/**
 * A proved lower bound of one rank. For rank 2 it holds under the cap
 * `values[0] <= cap` on rank 1 (null: it holds without one).
 */
export interface RankBound {
  readonly bound: number;
  readonly cap: number | null;
  /** (value - bound) / sum of weight * (finish - release); 0 where the plan is proved best. */
  readonly gap: number;
  /** value - bound, weighted minutes. */
  readonly gapMinutes: number;
  /** Which argument proves it: `critical-path`, `crew-hours`, `search`. */
  readonly proof: string;
}

/** Why one link of a binding chain holds its successor back. */
export type LinkReason =
  | { readonly kind: 'lag'; readonly lag: number }
  | { readonly kind: 'builder'; readonly builder: number }
  | { readonly kind: 'resource'; readonly resource: number }
  | { readonly kind: 'air'; readonly space: number }
  | { readonly kind: 'calendar' } // waits for the crew's next shift
  | { readonly kind: 'forbidden' } // waits for a permitted start
  | { readonly kind: 'release' }
  | { readonly kind: 'fixed' };

/** `from` (null: the beginning) holds `to` back until `until`, the moment it could go ahead. */
export interface ChainLink {
  readonly from: number | null;
  readonly to: number;
  readonly reason: LinkReason;
  readonly until: number;
}

/** From the first cause to the activity that finishes the refit last. */
export interface BindingChain {
  readonly refit: number;
  readonly links: readonly ChainLink[];
}

/** Why there is no plan. `irreducible` only if shown so. */
export interface Infeasibility {
  readonly irreducible: boolean;
  readonly activities: readonly number[];
  readonly lags: readonly number[];
  readonly reason: string;
}

export type SolveStatus = 'optimal' | 'feasible' | 'infeasible' | 'unknown';

export interface SolveResult {
  readonly status: SolveStatus;
  readonly plan: Plan | null;
  /** Per rank; empty where there is no plan. */
  readonly bounds: readonly RankBound[];
  readonly chains: readonly BindingChain[];
  /** Minutes each placed activity can slip with order, crews and branches kept, no refit finishing later; null if absent. */
  readonly floats: readonly (number | null)[];
  readonly infeasibility: Infeasibility | null;
  /** Iterations done, and at which one the returned plan was found. */
  readonly iterations: number;
  readonly foundAt: number;
}

/** What a running search shows. */
export interface SearchState {
  readonly status: SolveStatus;
  readonly plan: Plan | null;
  /** Proved lower bounds of rank 1 and rank 2. */
  readonly bounds: readonly [number, number];
  readonly iterations: number;
  readonly done: boolean;
}
