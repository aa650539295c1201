import { random } from '#kernel/random.ts';
import { ranks } from '../checker/values.ts';
import { closesAt, opensAt } from '../model/lag.ts';
import type { Plan } from '../model/plan.ts';
import type { Interval, LagFunction, LagTable, Problem } from '../model/problem.ts';
import { range, shuffled } from './draw.ts';

/**
 * A problem that says the same in other words, and how plans go there and back. The two
 * problems have the same verdict, and their best plans go over into each other.
 */
export interface Same {
  readonly problem: Problem;
  readonly forth: (plan: Plan) => Plan;
  readonly back: (plan: Plan) => Plan;
}

function revalued(problem: Problem, plan: Omit<Plan, 'finishes' | 'values'>): Plan {
  const finishes = problem.refits.map(() => 0);
  for (const { activity, finish } of plan.placements) {
    const { refit } = problem.activities[activity];
    if (refit !== null) finishes[refit] = Math.max(finishes[refit], finish);
  }
  return { ...plan, finishes, values: ranks(problem, finishes) };
}

const later = (spans: readonly Interval[], minutes: number): Interval[] =>
  spans.map(({ start, end }) => ({ start: start + minutes, end: end + minutes }));

/**
 * Both readings of every table, each on a grid of one minute: g(t) = f(t - minutes) + minutes.
 * The reading for openings of table k is at 2k, for closings at 2k + 1.
 */
function shiftedTables(problem: Problem, minutes: number): LagTable[] {
  return problem.tables.flatMap(({ id, source }, table) =>
    [opensAt, closesAt].map((at, reading) => ({
      id: `${id}-${reading === 0 ? 'opens' : 'closes'}`,
      grid: 1,
      values: range(problem.horizon + minutes + 1).map(
        (t) => at(problem, { kind: 'table', table }, Math.max(0, t - minutes)) + minutes,
      ),
      source,
    })),
  );
}

/** The plan with every placement so much later. */
const movedPlan = (problem: Problem, plan: Plan, minutes: number): Plan =>
  revalued(problem, {
    branches: plan.branches,
    placements: plan.placements.map((placement) => ({
      ...placement,
      start: placement.start + minutes,
      finish: placement.finish + minutes,
      segments: later(placement.segments, minutes),
    })),
  });

/**
 * Everything so many minutes (0 or more) later. Rank 1 keeps its value; rank 2 gains
 * weight * minutes for each refit that has work in the plan.
 */
export function shifted(problem: Problem, minutes: number): Same {
  const fn = (old: LagFunction, bound: 'open' | 'close'): LagFunction =>
    old.kind === 'constant'
      ? old
      : { kind: 'table', table: 2 * old.table + (bound === 'open' ? 0 : 1) };
  const at = (minute: number | null): number | null => (minute === null ? null : minute + minutes);
  const other: Problem = {
    ...problem,
    horizon: problem.horizon + minutes,
    calendars: problem.calendars.map((calendar) => ({
      ...calendar,
      shifts: later(calendar.shifts, minutes),
      breaks: later(calendar.breaks, minutes),
    })),
    resources: problem.resources.map((resource) => ({
      ...resource,
      steps: resource.steps.map((step, i) =>
        i === 0 ? step : { ...step, from: step.from + minutes },
      ),
    })),
    activities: problem.activities.map((activity) => ({
      ...activity,
      release: activity.release + minutes,
      modes: activity.modes.map((mode) => ({
        ...mode,
        forbiddenStarts: later(mode.forbiddenStarts, minutes),
      })),
      fixed: activity.fixed && {
        ...activity.fixed,
        start: at(activity.fixed.start),
        finish: at(activity.fixed.finish),
      },
    })),
    tables: shiftedTables(problem, minutes),
    lags: problem.lags.map((lag) => ({ ...lag, fn: fn(lag.fn, lag.bound) })),
    surfaces: problem.surfaces.map((surface) => ({ ...surface, until: fn(surface.until, 'open') })),
    refits: problem.refits.map((refit) => ({
      ...refit,
      release: refit.release + minutes,
      due: at(refit.due),
    })),
  };
  return {
    problem: other,
    forth: (plan) => movedPlan(other, plan, minutes),
    back: (plan) => movedPlan(problem, plan, -minutes),
  };
}

/** The same activities in another order. */
export function relabelled(problem: Problem, seed: number): Same {
  // place[a] is the new index of activity a; old[n] the activity at the new index n.
  const old = shuffled(random(seed), range(problem.activities.length));
  const place = range(old.length).map((a) => old.indexOf(a));
  const other: Problem = {
    ...problem,
    activities: old.map((a) => problem.activities[a]),
    lags: problem.lags.map((lag) => ({ ...lag, from: place[lag.from], to: place[lag.to] })),
    surfaces: problem.surfaces.map((one) => ({ ...one, activity: place[one.activity] })),
    choices: problem.choices.map((choice) => ({
      ...choice,
      branches: choice.branches.map((branch) => ({
        ...branch,
        activities: branch.activities.map((a) => place[a]),
      })),
    })),
  };
  const mapped = (plan: Plan, names: readonly number[]): Plan => ({
    ...plan,
    placements: plan.placements
      .map((placement) => ({ ...placement, activity: names[placement.activity] }))
      .sort((a, b) => a.activity - b.activity),
  });
  return {
    problem: other,
    forth: (plan) => mapped(plan, place),
    back: (plan) => mapped(plan, old),
  };
}
