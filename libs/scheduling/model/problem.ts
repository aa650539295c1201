/**
 * The scheduling problem, as data. Plain JSON, integers only, knows no boat.
 * Time is an integer number of minutes from the plan's origin; intervals are
 * half-open [start, end). References between records are array indices.
 * Every record that came from a yard row carries that row's id in `source`.
 */

/** A span of time in minutes, `start < end`. */
export interface Interval {
  readonly start: number;
  readonly end: number;
}

/**
 * When somebody works. `shifts` are sorted, disjoint and not touching; `breaks` lie
 * inside shifts, sorted and disjoint. Working time is the shifts less the breaks.
 */
export interface Calendar {
  readonly id: string;
  readonly shifts: readonly Interval[];
  readonly breaks: readonly Interval[];
}

/**
 * What a builder can do: `speed` is work units done in a minute (100 is nominal). `level` is
 * compared with a demand's `minLevel` only; that a learner (level 1) needs someone of a higher
 * level on the same activity is not modelled yet.
 */
export interface Ability {
  readonly skill: number;
  readonly level: number;
  readonly speed: number;
}

/** A person: a unit resource with a calendar. */
export interface Builder {
  readonly id: string;
  readonly calendar: number;
  readonly abilities: readonly Ability[];
  readonly source: string;
}

/** From minute `from` on the capacity is `capacity`, until the next step. */
export interface CapacityStep {
  readonly from: number;
  readonly capacity: number;
}

/** A renewable resource (a tool, stands, room for people). The first step is at 0. */
export interface Resource {
  readonly id: string;
  readonly steps: readonly CapacityStep[];
  readonly source: string;
}

/** A volume of air. Dust made here reaches the spaces of `dustReaches` (itself included if so). */
export interface Space {
  readonly id: string;
  readonly dustReaches: readonly number[];
  /** Minutes that dust made in this space hangs in the air after the work stops. */
  readonly settling: number;
  readonly source: string;
}

export type Air = 'clean' | 'dusty' | 'wet';

/** So many builders of a skill at no less than a level. */
export interface CrewDemand {
  readonly skill: number;
  readonly minLevel: number;
  readonly count: number;
}

/** A demand for a renewable resource while the activity works. */
export interface ResourceDemand {
  readonly resource: number;
  readonly amount: number;
  /** Splittable work only: kept while paused. */
  readonly keptWhilePaused: boolean;
}

/**
 * One way to do an activity, its head-count fixed.
 * Without a crew, `duration` minutes. With a crew, the duration is
 * max(floor, ceil(work / sum of the crew's speeds)), `work` in work units
 * (one nominal builder-minute is 100). Where a builder serves one of several
 * demands, the speed is that of the skill served.
 */
export interface Mode {
  readonly duration: number;
  readonly work: number;
  readonly floor: number;
  readonly crew: readonly CrewDemand[];
  readonly demands: readonly ResourceDemand[];
  /**
   * `false`: runs in one piece inside one shift of everyone on it. `true`: works in
   * every minute that is working time of everyone on it, from a start that is such a
   * minute, and pauses otherwise.
   */
  readonly splittable: boolean;
  /** Non-splittable work: `relieved` runs on through breaks, `observed` may not meet one. */
  readonly breaks: 'relieved' | 'observed';
  /** Starts are forbidden in these (sorted, disjoint): the start may not lie in any. */
  readonly forbiddenStarts: readonly Interval[];
  readonly space: number | null;
  readonly air: Air;
}

/** A non-decreasing function of an anchor time. `never` is horizon + 1. */
export type LagFunction =
  | { readonly kind: 'constant'; readonly minutes: number }
  | { readonly kind: 'table'; readonly table: number };

/**
 * `values[k]` is the function at minute `k * grid`; non-decreasing integers, capped at
 * horizon + 1 (never). Between grid points an opening takes the next grid point's value
 * and a closing the previous one's, which is the safe side. Covers 0..horizon.
 */
export interface LagTable {
  readonly id: string;
  readonly grid: number;
  readonly values: readonly number[];
  readonly source: string;
}

export type Anchor = 'start' | 'finish';

/**
 * `open`: to.anchor >= fn(from.anchor). `close`: to.anchor <= fn(from.anchor).
 * Applies when both activities are present and, if it belongs to a branch, that is chosen.
 */
export interface Lag {
  readonly id: string;
  readonly from: number;
  readonly fromAnchor: Anchor;
  readonly to: number;
  readonly toAnchor: Anchor;
  readonly bound: 'open' | 'close';
  readonly fn: LagFunction;
  /** What the lag is, for explanations: `sequence`, `bond`, `sand`, `handle`, `flash`, `stale`, … */
  readonly kind: string;
  readonly source: string;
}

/**
 * Wet work leaves a surface that dust may not reach from its start until `until`(finish),
 * read as an opening (the later value between grid points). The air is that of the mode's
 * space; wet work without a surface is exposed from start to finish.
 */
export interface OpenSurface {
  readonly activity: number;
  readonly until: LagFunction;
  readonly source: string;
}

/** Exactly one branch is done: its activities are present and its lags hold. */
export interface Choice {
  readonly id: string;
  readonly branches: readonly Branch[];
  readonly source: string;
}

export interface Branch {
  readonly id: string;
  readonly activities: readonly number[];
  /** Indices of lags that hold only in this branch. */
  readonly lags: readonly number[];
}

/** What is done, running, or set by the foreman. */
export interface FixedWork {
  /**
   * `frozen`: happened or is happening. Kept exactly, in one piece whatever its mode says,
   * and excused from calendars, crew, duration, release and forbidden starts; it still
   * occupies its people, resources and air, its lags hold, and a branch with frozen work
   * is the one taken. `set`: the foreman's wish, where it is present; all rules hold.
   */
  readonly kind: 'frozen' | 'set';
  readonly start: number | null;
  /** Frozen work gives its finish (known or expected) and may have begun before minute 0. */
  readonly finish: number | null;
  /** The whole crew by index, in any order; null leaves it to the engine. Frozen work lists who did it. */
  readonly builders: readonly number[] | null;
}

export interface Activity {
  readonly id: string;
  /** The refit it counts for, or null. */
  readonly refit: number | null;
  readonly modes: readonly Mode[];
  /** Earliest start, minutes. */
  readonly release: number;
  readonly fixed: FixedWork | null;
  readonly source: string;
}

/**
 * A boat's refit: finish is the latest finish of its present activities (0 if none).
 * Rank 1 sums weight * max(0, finish - due); rank 2 sums weight * finish. `release` binds
 * no activity: gaps are measured from it.
 */
export interface Refit {
  readonly id: string;
  readonly release: number;
  readonly due: number | null;
  readonly weight: number;
  readonly source: string;
}

export interface Problem {
  readonly version: 1;
  /** The UTC instant of minute 0, ISO 8601; null for benchmark instances. */
  readonly origin: string | null;
  /** Everything present finishes no later than this minute. */
  readonly horizon: number;
  readonly skills: readonly string[];
  readonly calendars: readonly Calendar[];
  readonly builders: readonly Builder[];
  readonly resources: readonly Resource[];
  readonly spaces: readonly Space[];
  readonly activities: readonly Activity[];
  readonly tables: readonly LagTable[];
  readonly lags: readonly Lag[];
  readonly choices: readonly Choice[];
  readonly surfaces: readonly OpenSurface[];
  readonly refits: readonly Refit[];
  /**
   * How much worse an earlier rank may get for the sake of a later one, in that rank's
   * own unit (weighted minutes): index 0 is lateness, 1 the weighted finishes.
   */
  readonly tolerances: readonly [number, number];
}
