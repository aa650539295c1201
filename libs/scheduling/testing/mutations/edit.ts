import type { Random } from '#kernel/random.ts';
import { plainMode } from '../../model/plain.ts';
import type { Placement } from '../../model/plan.ts';
import type { Activity, Interval, LagFunctions, Mode, Problem } from '../../model/problem.ts';
import type { Planted } from '../planted.ts';
import { worth } from '../worth.ts';

/**
 * Breaks one rule on purpose. `before` is the plan with the problem made tight where
 * the rule needs it, which the checker has to accept; `after` differs by one minute, one
 * person, one branch, one slot or one unit, and violates the rule by construction. Null where
 * the plan has nothing to break.
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

/** When people and demands are free again. */
export const freedAt = (problem: Problem, placement: Placement): number =>
  placement.finish + (isFrozen(problem, placement) ? 0 : modeOf(problem, placement).cleanDown);

/** Placements that keep all rules. */
export const bound = ({ problem, plan }: Planted): Placement[] =>
  plan.placements.filter((placement) => !isFrozen(problem, placement));

/** One of the list, or null where it is empty. */
export const any = <T>(rng: Random, items: readonly T[]): T | null =>
  items.length === 0 ? null : items[rng.below(items.length)];

export const replaced = <T>(items: readonly T[], index: number, item: T): T[] =>
  items.map((old, i) => (i === index ? item : old));

/** The plan of other placements, its values right. */
export const revalued = (
  { problem, plan }: Planted,
  placements: readonly Placement[],
): Planted => ({
  problem,
  plan: { ...plan, placements, ...worth(problem, placements) },
});

/** The plan with other placements for the same activities, its values right. */
export const placing = (source: Planted, ...others: readonly Placement[]): Planted =>
  revalued(
    source,
    source.plan.placements.map((old) => others.find((one) => one.activity === old.activity) ?? old),
  );

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

/** Another way to do what is placed, the last of the list; its functions are those of the way it is done. */
export function wayBeside(problem: Problem, { activity, mode }: Placement, way: Mode): Problem {
  const { modes } = problem.activities[activity];
  const more = (fns: LagFunctions): LagFunctions =>
    modes.length > 1 && fns.length === modes.length ? [...fns, fns[mode]] : fns;
  return {
    ...changing(problem, activity, (old) => ({ ...old, modes: [...modes, way] })),
    lags: problem.lags.map((lag) => (lag.from === activity ? { ...lag, fns: more(lag.fns) } : lag)),
    surfaces: problem.surfaces.map((one) =>
      one.activity === activity ? { ...one, until: more(one.until) } : one,
    ),
    holds: problem.holds.map((hold) =>
      hold.activity === activity
        ? {
            ...hold,
            ends: hold.ends.map((end) =>
              end.kind === 'lag' ? { ...end, fns: more(end.fns) } : end,
            ),
          }
        : hold,
    ),
  };
}

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

interface Probe {
  readonly mode?: Partial<Mode>;
  readonly parts?: readonly number[];
  /** Frozen work of this builder; without it nobody does it. */
  readonly frozenBy?: number;
}

/**
 * The problem and plan with one more activity, which counts for no refit, costs nothing and
 * lies where it is told: a probe to be moved by one minute. Its index is that of the last activity.
 */
export function probed({ problem, plan }: Planted, span: Interval, probe: Probe = {}): Planted {
  const { start, end } = span;
  const { mode, parts = [], frozenBy } = probe;
  const builders = frozenBy === undefined ? [] : [frozenBy];
  const index = problem.activities.length;
  const activity: Activity = {
    id: `probe-${index}`,
    refit: null,
    modes: [plainMode({ duration: end - start, ...mode })],
    releases: [],
    parts,
    fixed: frozenBy === undefined ? null : { kind: 'frozen', start, finish: end, builders },
    source: 'probe',
  };
  const placement: Placement = {
    activity: index,
    mode: 0,
    start,
    finish: end,
    segments: start < end ? [{ start, end }] : [],
    crew: builders.map((builder) => ({ builder, demand: 0 })),
    overtime: false,
    slot: null,
  };
  return {
    problem: { ...problem, activities: [...problem.activities, activity] },
    plan: { ...plan, placements: [...plan.placements, placement] },
  };
}

/**
 * A probe at a span and then so many minutes away from it; null where it would leave the plan's
 * own time. A frozen probe is moved with its record.
 */
export function sliding(
  source: Planted,
  span: Interval,
  step: number,
  probe: Probe,
): Mutant | null {
  const later = { start: span.start + step, end: span.end + step };
  const first = Math.min(span.start, later.start);
  if (first < 0 || Math.max(span.end, later.end) > source.problem.horizon) return null;
  const before = probed(source, span, probe);
  const after = probed(source, later, probe);
  const problem = probe.frozenBy === undefined ? before.problem : after.problem;
  return { before, after: { problem, plan: after.plan } };
}

/** A minute touched by `span` from one side, then met: where a probe goes and which way it steps. */
export function touching(
  rng: Random,
  { start, end }: Interval,
): { readonly span: Interval; readonly step: number } {
  const minutes = 1 + rng.below(15);
  return rng.below(2) === 0
    ? { span: { start: end, end: end + minutes }, step: -1 }
    : { span: { start: start - minutes, end: start }, step: 1 };
}
