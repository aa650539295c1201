import type { Placement, Plan } from '../model/plan.ts';
import type { Activity, Interval, Mode, Problem } from '../model/problem.ts';
import { extendedHours, regularHours, type Hours } from './hours.ts';

/** A placement with the records it points to, all of them known to exist. */
export interface Work {
  readonly placement: Placement;
  readonly activity: Activity;
  readonly mode: Mode;
  /** It happened or is happening; see `FixedWork` for what it is excused from. */
  readonly frozen: boolean;
  /** Its people and what it demands are free again: the finish, or the end of the clean-down. */
  readonly freed: number;
}

/**
 * The plan as the rules read it: the placements of present activities that are well
 * formed, one for each activity. Whatever is left out here has been reported by `presence`.
 */
export interface Reading {
  readonly problem: Problem;
  readonly plan: Plan;
  readonly work: readonly Work[];
  /** By activity; undefined where it is absent, missing or malformed. */
  readonly workOf: readonly (Work | undefined)[];
  /** Whether each activity has to be done, given the branches taken. */
  readonly present: readonly boolean[];
  /** By lag: it belongs to no branch or to one that was taken. */
  readonly lagHolds: readonly boolean[];
  /** By calendar, for work without and with overtime. */
  readonly regular: readonly Hours[];
  readonly extended: readonly Hours[];
}

const isIndex = (value: number, length: number): boolean =>
  Number.isInteger(value) && value >= 0 && value < length;

/** What keeps a placement from being read at all, or null. */
export function malformed(problem: Problem, placement: Placement): string | null {
  const { activity, start, finish, segments, crew } = placement;
  if (!isIndex(activity, problem.activities.length)) return `activity ${activity} is unknown`;
  if (!Number.isInteger(start) || !Number.isInteger(finish) || start > finish)
    return `start ${start} and finish ${finish} are not whole minutes in order`;
  let last = -Infinity;
  for (const segment of segments) {
    if (!Number.isInteger(segment.start) || !Number.isInteger(segment.end))
      return 'a segment is not in whole minutes';
    if (segment.start >= segment.end || segment.start < last)
      return 'segments are empty or out of order';
    last = segment.end;
  }
  const stranger = crew.find((member) => !isIndex(member.builder, problem.builders.length));
  return stranger ? `builder ${stranger.builder} is unknown` : null;
}

/** A placement with its records; undefined where it has no such mode. */
export function workOf(problem: Problem, placement: Placement): Work | undefined {
  const activity = problem.activities[placement.activity];
  if (!isIndex(placement.mode, activity.modes.length)) return undefined;
  const mode = activity.modes[placement.mode];
  const frozen = activity.fixed?.kind === 'frozen';
  const freed = placement.finish + (frozen ? 0 : mode.cleanDown);
  return { placement, activity, mode, frozen, freed };
}

/** When the work keeps its people, and its resources unless they are kept while paused: clean-down included. */
export function taken({ placement, freed }: Work): readonly Interval[] {
  const { finish, segments } = placement;
  return finish < freed ? [...segments, { start: finish, end: freed }] : segments;
}

/** Presence of activities and lags under the branches taken; a branch out of range takes none. */
function chosen(problem: Problem, plan: Plan): { present: boolean[]; lagHolds: boolean[] } {
  const present = problem.activities.map(() => true);
  const lagHolds = problem.lags.map(() => true);
  problem.choices.forEach((choice, c) => {
    choice.branches.forEach((branch, b) => {
      const yes = plan.branches[c] === b;
      for (const activity of branch.activities) present[activity] = yes;
      for (const lag of branch.lags) lagHolds[lag] = yes;
    });
  });
  return { present, lagHolds };
}

export function read(problem: Problem, plan: Plan): Reading {
  const { present, lagHolds } = chosen(problem, plan);
  const all: (Work | undefined)[] = problem.activities.map(() => undefined);
  for (const placement of plan.placements) {
    if (malformed(problem, placement) !== null) continue;
    if (present[placement.activity]) all[placement.activity] ??= workOf(problem, placement);
  }
  return {
    problem,
    plan,
    work: all.filter((work) => work !== undefined),
    workOf: all,
    present,
    lagHolds,
    regular: problem.calendars.map(regularHours),
    extended: problem.calendars.map(extendedHours),
  };
}
