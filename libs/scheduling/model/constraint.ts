import type { Problem } from './problem.ts';

/**
 * One thing that a plan has to respect, by index into the problem. The same names are used by
 * violations, binding chains, "why not earlier?" and explanations of infeasibility, so that each
 * can be traced to the yard row it came from.
 */
export type Constraint =
  | { readonly kind: 'lag'; readonly lag: number }
  /** A builder is in one place at a time. */
  | { readonly kind: 'builder'; readonly builder: number }
  /** A builder works in shifts, and observes breaks. */
  | { readonly kind: 'calendar'; readonly builder: number }
  /** Who may do it: skills, levels, head-count, a senior beside a learner. */
  | { readonly kind: 'crew'; readonly activity: number }
  | { readonly kind: 'resource'; readonly resource: number }
  /** A resource works in its own calendar. */
  | { readonly kind: 'hours'; readonly resource: number }
  | { readonly kind: 'stock'; readonly stock: number }
  /** A part is worked on by one activity at a time, where it is. */
  | { readonly kind: 'part'; readonly part: number }
  /** Dust made in space `from` may not reach what is open in space `to`. */
  | { readonly kind: 'dust'; readonly from: number; readonly to: number }
  /** A surface stays open for as long as it does. */
  | { readonly kind: 'surface'; readonly surface: number }
  /** Acts on a barrier come one after the other. */
  | { readonly kind: 'barrier'; readonly barrier: number }
  | { readonly kind: 'hold'; readonly hold: number }
  | { readonly kind: 'release'; readonly activity: number; readonly release: number }
  | {
      readonly kind: 'forbidden';
      readonly activity: number;
      readonly mode: number;
      readonly forbidden: number;
    }
  /** Work lies in a slot of the list. */
  | { readonly kind: 'slots'; readonly slotList: number }
  /** Frozen or set work is where it was put. */
  | { readonly kind: 'fixed'; readonly activity: number }
  /** Exactly one branch is done, and nothing is left out. */
  | { readonly kind: 'choice'; readonly choice: number }
  | { readonly kind: 'horizon' };

export type ConstraintKind = Constraint['kind'];

/** The yard row that a constraint came from; of the horizon, `horizon`. */
export function sourceOf(problem: Problem, constraint: Constraint): string {
  switch (constraint.kind) {
    case 'lag':
      return problem.lags[constraint.lag].source;
    case 'builder':
      return problem.builders[constraint.builder].source;
    case 'calendar':
      return problem.calendars[problem.builders[constraint.builder].calendar].source;
    case 'crew':
    case 'fixed':
      return problem.activities[constraint.activity].source;
    case 'resource':
      return problem.resources[constraint.resource].source;
    case 'hours': {
      const { calendar, source } = problem.resources[constraint.resource];
      return calendar === null ? source : problem.calendars[calendar].source;
    }
    case 'stock':
      return problem.stocks[constraint.stock].source;
    case 'part':
      return problem.parts[constraint.part].source;
    case 'dust':
      return problem.spaces[constraint.from].source;
    case 'surface':
      return problem.surfaces[constraint.surface].source;
    case 'barrier':
      return problem.barriers[constraint.barrier].source;
    case 'hold':
      return problem.holds[constraint.hold].source;
    case 'release':
      return problem.activities[constraint.activity].releases[constraint.release].source;
    case 'forbidden':
      return problem.activities[constraint.activity].modes[constraint.mode].forbidden[
        constraint.forbidden
      ].source;
    case 'slots':
      return problem.slotLists[constraint.slotList].source;
    case 'choice':
      return problem.choices[constraint.choice].source;
    case 'horizon':
      return 'horizon';
  }
}
