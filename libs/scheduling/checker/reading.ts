import type { Placement, Plan } from '../model/plan.ts';
import type { Activity, Interval, Mode, Problem } from '../model/problem.ts';
import { clip, common, workingTime } from './spans.ts';

/** A placement with the records it points to, all of them known to exist. */
export interface Work {
  readonly placement: Placement;
  readonly activity: Activity;
  readonly mode: Mode;
  /** It happened or is happening: excused from calendars, crew, duration, release and forbidden starts. */
  readonly frozen: boolean;
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
  /** Working time by calendar. */
  readonly working: readonly (readonly Interval[])[];
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

/** Presence of activities and lags under the branches taken; a branch out of range takes none. */
function chosen(problem: Problem, plan: Plan): { present: boolean[]; lagHolds: boolean[] } {
  const present = problem.activities.map(() => true);
  const lagHolds = problem.lags.map(() => true);
  problem.choices.forEach((choice, c) => {
    choice.branches.forEach((branch, b) => {
      const taken = plan.branches[c] === b;
      for (const activity of branch.activities) present[activity] = taken;
      for (const lag of branch.lags) lagHolds[lag] = taken;
    });
  });
  return { present, lagHolds };
}

export function read(problem: Problem, plan: Plan): Reading {
  const { present, lagHolds } = chosen(problem, plan);
  const workOf: (Work | undefined)[] = problem.activities.map(() => undefined);
  for (const placement of plan.placements) {
    if (malformed(problem, placement) !== null) continue;
    const activity = problem.activities[placement.activity];
    if (!present[placement.activity] || workOf[placement.activity]) continue;
    if (!isIndex(placement.mode, activity.modes.length)) continue;
    workOf[placement.activity] = {
      placement,
      activity,
      mode: activity.modes[placement.mode],
      frozen: activity.fixed?.kind === 'frozen',
    };
  }
  return {
    problem,
    plan,
    work: workOf.filter((work) => work !== undefined),
    workOf,
    present,
    lagHolds,
    working: problem.calendars.map(workingTime),
  };
}

/** When everybody of a crew works between two minutes; null for a crew of nobody. */
export function commonTime(
  { problem, working }: Reading,
  crew: Placement['crew'],
  start: number,
  end: number,
): readonly Interval[] | null {
  const calendars = new Set(crew.map((member) => problem.builders[member.builder].calendar));
  let spans: readonly Interval[] | null = null;
  for (const calendar of calendars) {
    const own = clip(working[calendar], start, end);
    spans = spans === null ? own : common(spans, own);
  }
  return spans;
}
