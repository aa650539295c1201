import type { Random } from '#kernel/random.ts';
import type { Placement, Plan } from '../../model/plan.ts';
import type { Activity, Mode, Problem } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';

/**
 * Breaks one rule on purpose. `before` is the plan with the problem made tight where
 * the rule needs it, which the checker has to accept; `after` differs by one minute, one
 * person or one unit, and violates the rule by construction. Null where the plan has
 * nothing to break.
 */
export type Mutation = (source: Planted, rng: Random) => Mutant | null;

export interface Mutant {
  readonly before: Planted;
  readonly after: Planted;
}

export const modeOf = (problem: Problem, placement: Placement): Mode =>
  problem.activities[placement.activity].modes[placement.mode];

export const isFrozen = (problem: Problem, placement: Placement): boolean =>
  problem.activities[placement.activity].fixed?.kind === 'frozen';

/** One of the list, or null where it is empty. */
export const any = <T>(rng: Random, items: readonly T[]): T | null =>
  items.length === 0 ? null : items[rng.below(items.length)];

export const replaced = <T>(items: readonly T[], index: number, item: T): T[] =>
  items.map((old, i) => (i === index ? item : old));

/** The plan with another placement for the same activity. */
export const placing = (plan: Plan, placement: Placement): Plan => ({
  ...plan,
  placements: plan.placements.map((old) => (old.activity === placement.activity ? placement : old)),
});

/** The problem with one activity changed. */
export const changing = (
  problem: Problem,
  activity: number,
  change: (old: Activity) => Activity,
): Problem => ({
  ...problem,
  activities: replaced(problem.activities, activity, change(problem.activities[activity])),
});

/** The problem with one mode of an activity changed. */
export const changingMode = (
  problem: Problem,
  { activity, mode }: Placement,
  change: (old: Mode) => Mode,
): Problem =>
  changing(problem, activity, (old) => ({
    ...old,
    modes: replaced(old.modes, mode, change(old.modes[mode])),
  }));

/** The whole placement so many minutes later. */
export const moved = (placement: Placement, minutes: number): Placement => ({
  ...placement,
  start: placement.start + minutes,
  finish: placement.finish + minutes,
  segments: placement.segments.map(({ start, end }) => ({
    start: start + minutes,
    end: end + minutes,
  })),
});

/** The finish alone so many minutes later, its last segment with it. */
export function stretched(placement: Placement, minutes: number): Placement {
  const { finish, segments } = placement;
  const last = segments.length - 1;
  return {
    ...placement,
    finish: finish + minutes,
    segments: segments.map((span, i) => (i === last ? { ...span, end: span.end + minutes } : span)),
  };
}

const blank: Mode = {
  duration: 0,
  work: 0,
  floor: 0,
  crew: [],
  demands: [],
  splittable: false,
  breaks: 'relieved',
  forbiddenStarts: [],
  space: null,
  air: 'clean',
};

/**
 * The problem and plan with one more activity, which counts for no refit, has no lag and
 * lies where it is told: a probe to be moved by one minute.
 */
export function probed(
  { problem, plan }: Planted,
  span: { readonly start: number; readonly end: number },
  options: { readonly mode?: Partial<Mode>; readonly frozenBy?: number } = {},
): Planted {
  const { start, end } = span;
  const { mode, frozenBy } = options;
  const builders = frozenBy === undefined ? [] : [frozenBy];
  const activity: Activity = {
    id: 'probe',
    refit: null,
    modes: [{ ...blank, duration: end - start, ...mode }],
    release: 0,
    fixed: frozenBy === undefined ? null : { kind: 'frozen', start, finish: end, builders },
    source: 'probe',
  };
  const placement: Placement = {
    activity: problem.activities.length,
    mode: 0,
    start,
    finish: end,
    segments: [{ start, end }],
    crew: builders.map((builder) => ({ builder, demand: 0 })),
  };
  return {
    problem: { ...problem, activities: [...problem.activities, activity] },
    plan: { ...plan, placements: [...plan.placements, placement] },
  };
}
