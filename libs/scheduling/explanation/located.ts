import { demands } from '../bounds/ground.ts';
import type { Solo } from '../bounds/solo.ts';
import { endIn } from '../bounds/solo.ts';
import { holesOf } from '../bounds/ways.ts';
import { hoursBook, type Keeper } from './keepers.ts';
import { reachOf, type Reach } from './reach.ts';
import type { Placement, Plan } from '../model/plan.ts';
import type { Activity, Interval, Mode, Problem } from '../model/problem.ts';
import { nextInside, spanAfter, type Spans } from '../search/crew/compiled/spans.ts';

/** Work in time. */
export interface Shape extends Interval {
  readonly segments: readonly Interval[];
  /** The end of its clean-down. */
  readonly freed: number;
}

/** A placed activity with what the problem says of it. */
export interface Located {
  readonly placement: Placement;
  readonly activity: Activity;
  readonly mode: Mode;
  readonly frozen: boolean;
  readonly keepers: readonly Keeper[];
  /** The work in the mode, crew, overtime and slot that it has. */
  readonly solo: Solo;
  /** Where it is in time: as planned, unless it is being asked about. */
  readonly shape: Shape;
}

/** A plan as explanations read it. `at[a]` is undefined where `a` is absent. */
export interface LocatedPlan {
  readonly problem: Problem;
  readonly plan: Plan;
  readonly at: readonly (Located | undefined)[];
  /** By lag: it holds in the plan. */
  readonly lagHolds: readonly boolean[];
  /** Lags that hold, by the activity they go to, and by the one they come from. */
  readonly incoming: readonly (readonly number[])[];
  readonly outgoing: readonly (readonly number[])[];
  /** Placed activities that share a builder, a part or a resource (by demand), by each of these. */
  readonly sharing: {
    readonly builders: readonly (readonly number[])[];
    readonly parts: readonly (readonly number[])[];
    readonly resources: readonly (readonly number[])[];
    /** Holds, by what they take some of, and by who takes it. */
    readonly holds: readonly (readonly number[])[];
    readonly held: readonly (readonly number[])[];
  };
  readonly reach: Reach;
}

function soloOf(problem: Problem, placement: Placement, mode: Mode, hours: Spans | null): Solo {
  const minutes = placement.segments.reduce((sum, s) => sum + s.end - s.start, 0);
  const slot =
    mode.slots === null || placement.slot === null
      ? null
      : problem.slotLists[mode.slots].slots[placement.slot];
  return {
    piece: mode.splittable ? null : hours,
    pausing: mode.splittable ? hours : null,
    minutes,
    cleanDown: mode.cleanDown,
    startHoles: holesOf(problem, mode, 'start'),
    finishHoles: holesOf(problem, mode, 'finish'),
    slots: slot === null ? null : [slot],
    potLives: [],
  };
}

const shapeOf = (placement: Placement, cleanDown: number): Shape => ({
  start: placement.start,
  end: placement.finish,
  segments: placement.segments,
  freed: placement.finish + cleanDown,
});

function sharingOf(
  { activities, builders, parts, resources, holds }: Problem,
  at: LocatedPlan['at'],
): LocatedPlan['sharing'] {
  const lists = (of: readonly unknown[]): number[][] => of.map(() => []);
  const sharing = {
    builders: lists(builders),
    parts: lists(parts),
    resources: lists(resources),
    holds: lists(resources),
    held: lists(activities),
  };
  at.forEach((one, a) => {
    if (!one) return;
    for (const b of new Set(one.placement.crew.map(({ builder }) => builder)))
      sharing.builders[b].push(a);
    for (const part of new Set(one.activity.parts)) sharing.parts[part].push(a);
    for (const r of new Set(one.mode.demands.map(({ resource }) => resource)))
      if (demands(one.mode, r)) sharing.resources[r].push(a);
  });
  holds.forEach(({ activity, resource }, h) => {
    sharing.holds[resource].push(h);
    sharing.held[activity].push(h);
  });
  return sharing;
}

export function locate(problem: Problem, plan: Plan): LocatedPlan {
  const at: (Located | undefined)[] = problem.activities.map(() => undefined);
  const book = hoursBook(problem);
  for (const placement of plan.placements) {
    const activity = problem.activities[placement.activity];
    const mode = activity.modes[placement.mode];
    const frozen = activity.fixed?.kind === 'frozen';
    const keepers = frozen ? [] : book.keepers(placement, mode);
    at[placement.activity] = {
      placement,
      activity,
      mode,
      frozen,
      keepers,
      solo: soloOf(problem, placement, mode, book.common(keepers)),
      shape: shapeOf(placement, frozen ? 0 : mode.cleanDown),
    };
  }
  const incoming: number[][] = problem.activities.map(() => []);
  const outgoing: number[][] = problem.activities.map(() => []);
  const lagHolds = problem.lags.map(
    ({ from, to }) => at[from] !== undefined && at[to] !== undefined,
  );
  problem.choices.forEach(({ branches }, c) => {
    branches.forEach(({ lags }, b) => {
      if (plan.branches[c] !== b) for (const l of lags) lagHolds[l] = false;
    });
  });
  problem.lags.forEach(({ from, to }, l) => {
    if (!lagHolds[l]) return;
    incoming[to].push(l);
    outgoing[from].push(l);
  });
  const sharing = sharingOf(problem, at);
  const reach = reachOf(problem, at);
  return { problem, plan, at, lagHolds, incoming, outgoing, sharing, reach };
}

const pieces = (spans: readonly Interval[]): Interval[] =>
  spans.reduce<Interval[]>((joined, span) => {
    const last = joined.at(-1);
    if (last?.end === span.start) joined.splice(-1, 1, { start: last.start, end: span.end });
    else joined.push(span);
    return joined;
  }, []);

/**
 * The work with the same people, if it started at `start`. Minutes that somebody does not work,
 * from the start to their next working minute, count as worked: the hours then refuse it.
 */
export function shapeAt({ solo, frozen, shape }: Located, start: number): Shape {
  const { pausing, minutes } = solo;
  const cleanDown = shape.freed - shape.end;
  if (frozen || pausing === null || minutes === 0) {
    const end = start + shape.end - shape.start;
    return { start, end, segments: start < end ? [{ start, end }] : [], freed: end + cleanDown };
  }
  const next = nextInside(pausing, start);
  const lead = Math.min(minutes, next < 0 ? minutes : next - start);
  const segments = lead > 0 ? [{ start, end: start + lead }] : [];
  const last = lead < minutes ? endIn(pausing, next, minutes - lead) : start + lead;
  // Hours that run out: the rest is worked after the last of them.
  const end = last < 0 ? start + minutes : last;
  if (last < 0) segments.splice(0, 1, { start, end });
  else if (lead < minutes)
    for (let i = spanAfter(pausing, next); i < pausing.count && pausing.starts[i] < end; i += 1)
      segments.push({
        start: Math.max(next, pausing.starts[i]),
        end: Math.min(end, pausing.ends[i]),
      });
  return { start, end, segments: pieces(segments), freed: end + cleanDown };
}

/** The plan as it would be if one activity started at another minute, all else as it is. */
export function moved(located: LocatedPlan, activity: number, start: number): LocatedPlan {
  const one = located.at[activity];
  if (!one) return located;
  const at = located.at.slice();
  at[activity] = { ...one, shape: shapeAt(one, start) };
  return { ...located, at };
}

/** When work keeps its people. */
export const taken = ({ shape }: Located): readonly Interval[] =>
  shape.end < shape.freed
    ? [...shape.segments, { start: shape.end, end: shape.freed }]
    : shape.segments;

/** Those of some activities that are placed. */
export const those = ({ at }: LocatedPlan, activities: readonly number[]): Located[] =>
  activities.flatMap((a) => at[a] ?? []);

export const meets = (a: Interval, b: Interval): boolean => a.start < b.end && b.start < a.end;
