import { fitsFrom } from '../bounds/solo.ts';
import type { Assignment, Obstacle, Placement, Plan } from '../model/plan.ts';
import type { Activity, CrewDemand, Mode, Problem } from '../model/problem.ts';
import { nextInside } from '../search/crew/compiled/spans.ts';
import { locate, shapeAt, type Located, type Shape } from './located.ts';
import { obstaclesAt } from './obstacles/at.ts';

/** Where somebody wants an activity, and with whom (null: as planned). */
export interface Wish {
  readonly start: number;
  readonly builders: readonly number[] | null;
}

/** A plan with one activity put elsewhere, all else as it was. */
export interface Trial {
  /** Without what the foreman had set for the activity: that is what is being changed. */
  readonly problem: Problem;
  /** Its finishes and values are still those of the plan. */
  readonly plan: Plan;
  readonly placement: Placement;
  /** What the activity runs into there, as far as it is told by reasons for waiting. */
  readonly obstacles: readonly Obstacle[];
  /** What it would run into from another minute on, with the same people. */
  readonly from: (start: number) => Start;
}

export interface Start {
  readonly start: number;
  readonly obstacles: readonly Obstacle[];
}

const headCount = ({ crew }: Mode): number => crew.reduce((sum, { count }) => sum + count, 0);

/** The numbers of people that the activity can be done with, ascending. */
export const headCounts = ({ modes }: Activity): number[] =>
  [...new Set(modes.map(headCount))].sort((a, b) => a - b);

/** Whether a builder may serve a demand. */
export const isAble = (
  { builders }: Problem,
  builder: number,
  { skill, minLevel }: CrewDemand,
): boolean =>
  builders[builder].abilities.some((one) => one.skill === skill && one.level >= minLevel);

/** Each to a demand that they can serve if one has room left, else to one that has. */
function assigned(problem: Problem, mode: Mode, builders: readonly number[]): Assignment[] {
  const left = mode.crew.map(({ count }) => count);
  return builders.map((builder) => {
    const free = (demand: number): boolean => left[demand] > 0;
    const all = mode.crew.map((_, demand) => demand).filter(free);
    const demand = all.find((one) => isAble(problem, builder, mode.crew[one])) ?? all[0];
    left[demand] -= 1;
    return { builder, demand };
  });
}

const worked = ({ segments }: Placement): number =>
  segments.reduce((sum, { start, end }) => sum + end - start, 0);

/** Minutes that the crew needs; as planned where somebody has not the skill. */
function minutesWith(problem: Problem, mode: Mode, crew: readonly Assignment[]): number | null {
  let speed = 0;
  for (const { builder, demand } of crew) {
    const { skill } = mode.crew[demand];
    const ability = problem.builders[builder].abilities.find((one) => one.skill === skill);
    if (ability === undefined) return null;
    speed += ability.speed;
  }
  return speed > 0 ? Math.max(mode.floor, Math.ceil(mode.work / speed)) : null;
}

/** With the people wanted; null where it is not done by so many. */
function manned(
  problem: Problem,
  placement: Placement,
  builders: readonly number[] | null,
): Placement | null {
  if (builders === null) return placement;
  const { modes } = problem.activities[placement.activity];
  const fits = (mode: Mode): boolean => headCount(mode) === builders.length;
  const m = fits(modes[placement.mode]) ? placement.mode : modes.findIndex(fits);
  if (m < 0) return null;
  const mode = modes[m];
  const crew = assigned(problem, mode, builders);
  const minutes = minutesWith(problem, mode, crew) ?? worked(placement);
  const { start } = placement;
  const finish = start + minutes;
  const segments = minutes > 0 ? [{ start, end: finish }] : [];
  return { ...placement, mode: m, crew, finish, segments };
}

/** The first start from `start` on that everybody's hours allow; `start` itself where none does. */
function workable({ solo }: Located, start: number): number {
  const { pausing, piece, minutes, cleanDown } = solo;
  if (pausing !== null) return minutes > 0 ? Math.max(start, nextInside(pausing, start)) : start;
  if (piece === null || minutes + cleanDown === 0) return start;
  return Math.max(start, fitsFrom(piece, start, minutes + cleanDown));
}

/** The slot that holds the work; where none does, that of the plan. */
function slotFor(problem: Problem, { mode, placement }: Located, shape: Shape): number | null {
  if (mode.slots === null) return null;
  const found = problem.slotLists[mode.slots].slots.findIndex(
    ({ start, end, bookBy }) => start <= shape.start && shape.freed <= end && bookBy >= problem.now,
  );
  return found < 0 ? placement.slot : found;
}

const withOne = (plan: Plan, placement: Placement): Plan => ({
  ...plan,
  placements: plan.placements.map((one) => (one.activity === placement.activity ? placement : one)),
});

/**
 * The plan with an activity at the first workable moment from the wished one on, with the wished
 * people, all else as it was. It may break whatever it likes: the checker says what. Null where
 * the activity is not done by so many people. The activity is placed in the plan, and not frozen.
 */
export function trial(
  problem: Problem,
  plan: Plan,
  placed: Placement,
  { start, builders }: Wish,
): Trial | null {
  const { activity } = placed;
  const free: Problem = {
    ...problem,
    activities: problem.activities.map((one, a) =>
      a === activity ? { ...one, fixed: null } : one,
    ),
  };
  const wanted = manned(free, placed, builders);
  if (wanted === null) return null;
  const before = locate(free, withOne(plan, wanted)).at[activity];
  if (before === undefined) return null;
  const shape = shapeAt(before, workable(before, start));
  const placement: Placement = {
    ...wanted,
    start: shape.start,
    finish: shape.end,
    segments: shape.segments,
    slot: slotFor(free, before, shape),
  };
  const moved = withOne(plan, placement);
  const located = locate(free, moved);
  const one = located.at[activity];
  if (one === undefined) return null;
  const from = (wish: number): Start => {
    const at = workable(one, wish);
    return { start: at, obstacles: obstaclesAt(located, one, at) };
  };
  const { obstacles } = from(placement.start);
  return { problem: free, plan: moved, placement, obstacles, from };
}
