import type { Constraint } from './constraint.ts';
import type { Interval } from './problem.ts';

/** Who serves which of the mode's crew demands (index into `mode.crew`). */
export interface Assignment {
  readonly builder: number;
  readonly demand: number;
}

/**
 * One activity in time. `segments` are the working spans, clean-down not among them. Work that
 * runs in one piece (not splittable, with neither crew nor a resource's calendar, or frozen)
 * has one segment [start, finish). Splittable work has the common working time of its crew and
 * its resources' calendars from start to finish, touching spans merged. Zero minutes of work
 * occupy nothing and have no segment.
 */
export interface Placement {
  readonly activity: number;
  readonly mode: number;
  readonly start: number;
  readonly finish: number;
  readonly segments: readonly Interval[];
  readonly crew: readonly Assignment[];
  /** The crew's overtime counts as working time for it. False without a crew and where frozen. */
  readonly overtime: boolean;
  /** The slot used, of the mode's list; null without one and where frozen. */
  readonly slot: number | null;
}

/** Values of the four ranks: weighted lateness, weighted finishes, money, disturbance. */
export type RankValues = readonly [number, number, number, number];

/** The answer to a problem. Placements are sorted by activity; absent activities have none. */
export interface Plan {
  readonly placements: readonly Placement[];
  /** The branch taken, by choice. */
  readonly branches: readonly number[];
  /** Finish of each refit, minutes. */
  readonly finishes: readonly number[];
  readonly values: RankValues;
}

/** A proved lower bound of one rank. */
export interface ProvedBound {
  readonly bound: number;
  /** It holds for plans whose earlier ranks are at most these; empty: for every plan. */
  readonly caps: readonly number[];
  /**
   * Which argument proves it: `critical-path`, `crew-hours`, `finishes` (caps on the refits' finishes
   * refuted), `least-cost`, `search`, `none`.
   */
  readonly proof: string;
}

/** A bound beside what the plan is worth. */
export interface RankBound extends ProvedBound {
  /**
   * value - bound over what there is to shorten: for ranks 1 and 2 the sum of
   * weight * (finish - max(now, release)), for 3 and 4 the value. 0 where proved best.
   */
  readonly gap: number;
  /** value - bound, in the rank's own unit: weighted minutes, weighted minutes, money, weight. */
  readonly distance: number;
}

/** `from` (null: the beginning) holds `to` back until `until`, the moment it could go ahead. */
export interface ChainLink {
  readonly from: number | null;
  readonly to: number;
  readonly reason: Constraint;
  readonly until: number;
}

/** From the first cause to the activity that finishes the refit last. */
export interface BindingChain {
  readonly refit: number;
  readonly links: readonly ChainLink[];
}

/** What keeps an activity from starting earlier, everything else as planned. */
export interface EarlierRefusal {
  readonly activity: number;
  /** The start asked about, before the planned one. */
  readonly at: number;
  /** Every reason, the one that lasts longest first; `from` as in `ChainLink`. Empty: nothing does. */
  readonly obstacles: readonly Obstacle[];
}

export interface Obstacle {
  readonly from: number | null;
  readonly reason: Constraint;
  readonly until: number;
}

/**
 * Why there is no plan: these constraints cannot all be met within the horizon. `irreducible`:
 * shown that without any one of them there is a plan; otherwise not shown to be irreducible.
 */
export interface Infeasibility {
  readonly irreducible: boolean;
  readonly constraints: readonly Constraint[];
  /** The activities they are about. */
  readonly activities: readonly number[];
}

export type SolveStatus = 'optimal' | 'feasible' | 'infeasible' | 'unknown';

export interface SolveResult {
  readonly status: SolveStatus;
  readonly plan: Plan | null;
  /** By rank; empty where there is no plan. */
  readonly bounds: readonly RankBound[];
  readonly chains: readonly BindingChain[];
  /** Minutes each placed activity can slip with order, crews and branches kept, no refit finishing later; null if absent. */
  readonly floats: readonly (number | null)[];
  readonly infeasibility: Infeasibility | null;
  /** Iterations done, and at which one the returned plan was found. */
  readonly iterations: number;
  readonly foundAt: number;
}

/**
 * What a running search shows. `optimal`: each rank's least value, with the earlier ones capped
 * at their least value plus tolerance, is proved and the plan has it.
 */
export interface SearchState {
  readonly status: SolveStatus;
  readonly plan: Plan | null;
  /** By rank, four of them. */
  readonly bounds: readonly ProvedBound[];
  readonly iterations: number;
  readonly done: boolean;
}
