/**
 * The scheduling problem, as data. Plain JSON, integers only, knows no boat.
 * Time is an integer number of minutes from the plan's origin (in a benchmark instance, of
 * its periods); intervals are half-open [start, end). References between records are array
 * indices. Every record that came from a yard row carries that row's id in `source`.
 * Money is in whole units of the problem's own choice.
 */

/** A span of time in minutes, `start < end`. */
export interface Interval {
  readonly start: number;
  readonly end: number;
}

/** A span that somebody may be asked to work beyond the shifts. */
export interface Overtime extends Interval {
  /** Money for each minute worked in it, on top of the builder's own. */
  readonly cost: number;
}

/**
 * When somebody (or a resource) works. `shifts` are sorted, disjoint and not touching;
 * `breaks` lie inside shifts, sorted and disjoint; `overtime` is sorted, disjoint and meets
 * no shift, but may touch one. Regular working time is the shifts less the breaks. Work placed
 * with overtime sees shifts and overtime as one: spans that touch are one shift.
 */
export interface Calendar {
  readonly id: string;
  readonly shifts: readonly Interval[];
  readonly breaks: readonly Interval[];
  readonly overtime: readonly Overtime[];
  readonly source: string;
}

/**
 * What a builder can do: `speed` is work units done in a minute (100 is nominal). `level` is
 * compared with a demand's `minLevel`.
 */
export interface Ability {
  readonly skill: number;
  readonly level: number;
  readonly speed: number;
  /** A learner: serves this skill only beside another of the same crew who has it at a higher level. */
  readonly needsSenior: boolean;
}

/** A person: a unit resource with a calendar. */
export interface Builder {
  readonly id: string;
  readonly calendar: number;
  readonly abilities: readonly Ability[];
  /** Money for each minute worked. */
  readonly cost: number;
  /** In several places at once: never so in a yard, only where it is asked what that would change. */
  readonly unlimited: boolean;
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
  /**
   * Whoever demands some of it works only in this calendar's regular working time: splittable
   * work pauses outside, other work lies in one of its shifts and meets no break. Null: always on.
   */
  readonly calendar: number | null;
  readonly source: string;
}

/** A non-renewable resource: what all present activities consume together is at most `total`. */
export interface Stock {
  readonly id: string;
  readonly total: number;
  readonly source: string;
}

/** Something worked on: by one activity at a time, from start to finish, and where it is. */
export interface Part {
  readonly id: string;
  /** The space it is in before the first activity that moves it. */
  readonly space: number;
  readonly source: string;
}

/**
 * A door or screen between spaces. It is closed from the finish of an activity that closes it
 * until the start of the next one that acts on it; acts on one barrier do not overlap.
 */
export interface Barrier {
  readonly id: string;
  /** Before the first act. */
  readonly closed: boolean;
  readonly source: string;
}

/** Where dust goes; through a barrier only while that is not closed. */
export interface DustReach {
  readonly space: number;
  readonly barrier: number | null;
}

/** A chance in the outside world: work that uses it lies in [start, end), clean-down included. */
export interface Slot extends Interval {
  /** Money, once, if any activity uses it. */
  readonly cost: number;
  /** Too late to book it, and so not to be used, if this lies before the problem's `now`. */
  readonly bookBy: number;
}

/** Slots of one kind (a crane, a tide, a surveyor); sorted by start. */
export interface SlotList {
  readonly id: string;
  readonly slots: readonly Slot[];
  readonly source: string;
}

/** A volume of air. Dust made here reaches the spaces of `dustReaches` (itself included if so). */
export interface Space {
  readonly id: string;
  readonly dustReaches: readonly DustReach[];
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

/** A demand for a renewable resource while the activity works (clean-down included). */
export interface ResourceDemand {
  readonly resource: number;
  readonly amount: number;
  /** Splittable work only: kept while paused. */
  readonly keptWhilePaused: boolean;
}

export interface Consumption {
  readonly stock: number;
  readonly amount: number;
}

/** The start (or finish) may not lie in any of the spans, which are sorted and disjoint. */
export interface Forbidden {
  readonly anchor: Anchor;
  readonly spans: readonly Interval[];
  /** For explanations: `climate`, `dew`, `quiet`, … */
  readonly kind: string;
  readonly source: string;
}

export interface BarrierAct {
  readonly barrier: number;
  readonly closes: boolean;
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
  readonly consumes: readonly Consumption[];
  /**
   * `false`: runs in one piece inside one shift of everyone on it (and of the calendars of
   * its resources). `true`: works in every minute that is working time of all of them, from a
   * start that is such a minute, and pauses otherwise; with no crew and no resource that has a
   * calendar it never pauses.
   */
  readonly splittable: boolean;
  /** Non-splittable work: `relieved` runs on through the crew's breaks, `observed` may not meet one. */
  readonly breaks: 'relieved' | 'observed';
  /**
   * Minutes after the finish in which crew and demands stay taken, in one piece with the work:
   * same shift, same breaks rule. The film is laid at the finish, and lags, parts, the refit and
   * the air know nothing of it. 0 for splittable work and work without a crew.
   */
  readonly cleanDown: number;
  readonly forbidden: readonly Forbidden[];
  readonly space: number | null;
  readonly air: Air;
  /** The activity's parts are in this space from the finish on. Takes at least a minute. */
  readonly movesTo: number | null;
  /** Takes at least a minute. */
  readonly barrier: BarrierAct | null;
  /** The work lies in one slot of this list. */
  readonly slots: number | null;
  /** Money, once. */
  readonly cost: number;
}

/** A non-decreasing function of an anchor time. `never` is horizon + 1. */
export type LagFunction =
  | { readonly kind: 'constant'; readonly minutes: number }
  | { readonly kind: 'table'; readonly table: number };

/** One function, or one for each mode of the activity whose anchor it takes. */
export type LagFunctions = readonly LagFunction[];

/**
 * A monotone function of time. Between grid points (`StepTable`, values[k] at minute k * grid) an
 * opening takes the next point's value and a closing the previous one's, which is the safe side.
 * Covers 0..horizon; horizon + 1 stands for any later moment and for never.
 */
export interface StepTable {
  readonly id: string;
  readonly grid: number;
  readonly values: readonly number[];
  readonly source: string;
}

/**
 * The same as straight lines between knots: `at` ascends strictly from 0 to the horizon or
 * beyond, `values` never descend. Between two knots the value on the line, rounded up for an
 * opening and down for a closing; after the last knot, its value.
 */
export interface LineTable {
  readonly id: string;
  readonly at: readonly number[];
  readonly values: readonly number[];
  readonly source: string;
}

export type LagTable = StepTable | LineTable;

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
  readonly fns: LagFunctions;
  /** What the lag is, for explanations: `sequence`, `bond`, `sand`, `handle`, `flash`, `stale`, … */
  readonly kind: string;
  readonly source: string;
}

/**
 * An activity leaves a surface that dust may not reach from its start until
 * `until`(finish), read as an opening (the later value between grid points); but where any of
 * `coveredBy` is present, until the earliest of their starts instead. The air is that of the
 * mode's space, and from the start of each later move of the activity's first part also that of
 * the space moved to, no longer that of the space before once the move is finished.
 * Wet work is exposed in its mode's space from start to finish, surface or not. Not dusty work.
 */
export interface OpenSurface {
  readonly id: string;
  readonly activity: number;
  readonly until: LagFunctions;
  readonly coveredBy: readonly number[];
  readonly source: string;
}

/** When a hold may end: a function of the holder's finish, or another activity's start or finish. */
export type HoldEnd =
  | { readonly kind: 'lag'; readonly fns: LagFunctions }
  | { readonly kind: 'activity'; readonly activity: number; readonly anchor: Anchor };

/**
 * An amount of a resource taken from the activity's start, without pause, until the latest of
 * its finish and `ends` (those of absent activities do not count). In addition to demands.
 */
export interface Hold {
  readonly id: string;
  readonly activity: number;
  readonly resource: number;
  readonly amount: number;
  readonly ends: readonly HoldEnd[];
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
   * without clean-down or overtime, and excused from calendars, crew, duration, releases,
   * forbidden moments, slots and where its parts are; it still occupies its people, resources,
   * parts and air, its holds, barrier and move count, its lags hold, and a branch with frozen
   * work is the one taken. `set`: the foreman's wish, where it is present; all rules hold.
   */
  readonly kind: 'frozen' | 'set';
  readonly start: number | null;
  /** Frozen work gives its finish (known or expected) and may have begun before minute 0. */
  readonly finish: number | null;
  /** The whole crew by index, in any order; null leaves it to the engine. Frozen work lists who did it. */
  readonly builders: readonly number[] | null;
}

/** A moment before which an activity may not start. */
export interface Release {
  readonly at: number;
  /** For explanations: `boat`, `delivery`, `word` (a hold point), `now`, … */
  readonly kind: string;
  readonly source: string;
}

/**
 * A hold point is an activity without crew and minutes whose release (or slot) is when the word
 * is expected.
 */
export interface Activity {
  readonly id: string;
  /** The refit it counts for, or null. */
  readonly refit: number | null;
  readonly modes: readonly Mode[];
  readonly releases: readonly Release[];
  /**
   * Taken from start to finish, pauses included; where a mode has a space, they have to be there
   * at its start. The first is the one that carries the film.
   */
  readonly parts: readonly number[];
  readonly fixed: FixedWork | null;
  readonly source: string;
}

/**
 * A boat's refit: finish is the latest finish of its present activities (0 if none).
 * Rank 1 sums weight * max(0, handover - due), the handover being the finish, or where
 * `handovers` (ascending) are given the first of them not before the finish, after the last
 * the horizon. Rank 2 sums weight * finish. `release` binds no activity: gaps are measured
 * from it.
 */
export interface Refit {
  readonly id: string;
  readonly release: number;
  readonly due: number | null;
  readonly handovers: readonly number[];
  readonly weight: number;
  readonly source: string;
}

/** What people have been told. */
export interface Published {
  /** Minutes by which a start may differ without having moved. */
  readonly tolerance: number;
  readonly tasks: readonly PublishedTask[];
}

export interface PublishedTask {
  readonly activity: number;
  readonly start: number;
  readonly builders: readonly number[];
  readonly weight: number;
}

/**
 * A plan's worth in four ranks, each to be least with the earlier ones at their best plus
 * their tolerance: 1 broken promises and 2 weighted finishes (see `Refit`); 3 money: modes,
 * minutes of builders (clean-down included), overtime and slots, of all work that is not
 * frozen; 4 disturbance: for each published task its weight if it starts more than the
 * tolerance away, and its weight if its builders are not the same set; once if it is absent.
 */
export interface Problem {
  readonly version: 2;
  /** The UTC instant of minute 0, ISO 8601; null for benchmark instances. */
  readonly origin: string | null;
  /** The minute at which the question is asked, 0 to the horizon. Binds slots; gaps are measured from it. */
  readonly now: number;
  /** Everything present finishes, cleaned down, no later than this minute. */
  readonly horizon: number;
  readonly skills: readonly string[];
  readonly calendars: readonly Calendar[];
  readonly builders: readonly Builder[];
  readonly resources: readonly Resource[];
  readonly stocks: readonly Stock[];
  readonly spaces: readonly Space[];
  readonly barriers: readonly Barrier[];
  readonly parts: readonly Part[];
  readonly slotLists: readonly SlotList[];
  readonly activities: readonly Activity[];
  readonly tables: readonly LagTable[];
  readonly lags: readonly Lag[];
  readonly choices: readonly Choice[];
  readonly surfaces: readonly OpenSurface[];
  readonly holds: readonly Hold[];
  readonly refits: readonly Refit[];
  readonly published: Published | null;
  /** How much worse each of the first three ranks may get for the sake of later ones, in its own unit. */
  readonly tolerances: readonly [number, number, number];
}
