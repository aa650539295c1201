import { random } from '#kernel/random.ts';
import { closesAt, opensAt } from '../model/lag.ts';
import type { Placement, Plan } from '../model/plan.ts';
import type {
  Activity,
  HoldEnd,
  Interval,
  LagFunctions,
  LagTable,
  Problem,
} from '../model/problem.ts';
import { range, shuffled } from './draw.ts';
import { worth } from './worth.ts';

/**
 * A problem that says the same in other words, and how plans go there and back. The two
 * problems have the same verdict, and their best plans go over into each other.
 */
export interface Same {
  readonly problem: Problem;
  readonly forth: (plan: Plan) => Plan;
  readonly back: (plan: Plan) => Plan;
}

const later = <T extends Interval>(spans: readonly T[], minutes: number): T[] =>
  spans.map((span) => ({ ...span, start: span.start + minutes, end: span.end + minutes }));

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
const movedPlan = (problem: Problem, plan: Plan, minutes: number): Plan => {
  const placements = plan.placements.map((placement) => ({
    ...placement,
    start: placement.start + minutes,
    finish: placement.finish + minutes,
    segments: later(placement.segments, minutes),
  }));
  return { branches: plan.branches, placements, ...worth(problem, placements) };
};

/** What work asks for at most; before the old minute 0 nothing was known of capacity. */
const plenty = ({ activities, holds }: Problem): number =>
  activities
    .flatMap(({ modes }) => modes.flatMap(({ demands }) => demands))
    .concat(holds.map(({ resource, amount }) => ({ resource, amount, keptWhilePaused: false })))
    .reduce((sum, { amount }) => sum + amount, 0);

function shiftedActivity(activity: Activity, minutes: number): Activity {
  const at = (minute: number | null): number | null => (minute === null ? null : minute + minutes);
  const { fixed } = activity;
  // Nothing that is not frozen begins before the old minute 0.
  const origin = { at: minutes, kind: 'now', source: 'origin' };
  return {
    ...activity,
    releases: [...activity.releases.map((one) => ({ ...one, at: one.at + minutes })), origin],
    modes: activity.modes.map((mode) => ({
      ...mode,
      forbidden: mode.forbidden.map((one) => ({ ...one, spans: later(one.spans, minutes) })),
    })),
    fixed: fixed && { ...fixed, start: at(fixed.start), finish: at(fixed.finish) },
  };
}

/**
 * Everything so many minutes (0 or more) later. Ranks 1, 3 and 4 keep their values; rank 2 gains
 * weight * minutes for each refit that has work in the plan.
 */
export function shifted(problem: Problem, minutes: number): Same {
  const fns = (old: LagFunctions, bound: 'open' | 'close'): LagFunctions =>
    old.map((fn) =>
      fn.kind === 'constant'
        ? fn
        : { kind: 'table', table: 2 * fn.table + (bound === 'open' ? 0 : 1) },
    );
  const end = (old: HoldEnd): HoldEnd =>
    old.kind === 'lag' ? { ...old, fns: fns(old.fns, 'open') } : old;
  const other: Problem = {
    ...problem,
    now: problem.now + minutes,
    horizon: problem.horizon + minutes,
    calendars: problem.calendars.map((calendar) => ({
      ...calendar,
      shifts: later(calendar.shifts, minutes),
      breaks: later(calendar.breaks, minutes),
      overtime: later(calendar.overtime, minutes),
    })),
    resources: problem.resources.map((resource) => ({
      ...resource,
      steps: [
        ...(minutes > 0 ? [{ from: 0, capacity: plenty(problem) }] : []),
        ...resource.steps.map((step) => ({ ...step, from: step.from + minutes })),
      ],
    })),
    slotLists: problem.slotLists.map((list) => ({
      ...list,
      slots: later(list.slots, minutes).map((slot) => ({
        ...slot,
        bookBy: slot.bookBy + minutes,
      })),
    })),
    activities: problem.activities.map((activity) => shiftedActivity(activity, minutes)),
    tables: shiftedTables(problem, minutes),
    lags: problem.lags.map((lag) => ({ ...lag, fns: fns(lag.fns, lag.bound) })),
    surfaces: problem.surfaces.map((one) => ({ ...one, until: fns(one.until, 'open') })),
    holds: problem.holds.map((hold) => ({ ...hold, ends: hold.ends.map(end) })),
    refits: problem.refits.map((refit) => ({
      ...refit,
      release: refit.release + minutes,
      due: refit.due === null ? null : refit.due + minutes,
      handovers: refit.handovers.map((at) => at + minutes),
    })),
    published: problem.published && {
      ...problem.published,
      tasks: problem.published.tasks.map((task) => ({ ...task, start: task.start + minutes })),
    },
  };
  return {
    problem: other,
    forth: (plan) => movedPlan(other, plan, minutes),
    back: (plan) => movedPlan(problem, plan, -minutes),
  };
}

/** New numbers for old ones: `old[n]` is what has number n now, `place[a]` what a has become. */
interface Renaming {
  readonly old: readonly number[];
  readonly place: readonly number[];
}

function renaming(seed: number, count: number): Renaming {
  const old = shuffled(random(seed), range(count));
  return { old, place: range(count).map((a) => old.indexOf(a)) };
}

const renamed = (plan: Plan, activity: readonly number[], builder: readonly number[]): Plan => ({
  ...plan,
  placements: plan.placements
    .map((placement): Placement => ({
      ...placement,
      activity: activity[placement.activity],
      crew: placement.crew.map((member) => ({ ...member, builder: builder[member.builder] })),
    }))
    .sort((a, b) => a.activity - b.activity),
});

/** The same activities and builders in another order. */
export function relabelled(problem: Problem, seed: number): Same {
  const a = renaming(seed, problem.activities.length);
  const b = renaming(seed + 1, problem.builders.length);
  const people = (builders: readonly number[]): number[] => builders.map((one) => b.place[one]);
  const tasks = (activities: readonly number[]): number[] => activities.map((one) => a.place[one]);
  const end = (old: HoldEnd): HoldEnd =>
    old.kind === 'activity' ? { ...old, activity: a.place[old.activity] } : old;
  const other: Problem = {
    ...problem,
    builders: b.old.map((one) => problem.builders[one]),
    activities: a.old.map((one) => {
      const activity = problem.activities[one];
      const { fixed } = activity;
      if (!fixed?.builders) return activity;
      return { ...activity, fixed: { ...fixed, builders: people(fixed.builders) } };
    }),
    lags: problem.lags.map((lag) => ({ ...lag, from: a.place[lag.from], to: a.place[lag.to] })),
    surfaces: problem.surfaces.map((one) => ({
      ...one,
      activity: a.place[one.activity],
      coveredBy: tasks(one.coveredBy),
    })),
    holds: problem.holds.map((hold) => ({
      ...hold,
      activity: a.place[hold.activity],
      ends: hold.ends.map(end),
    })),
    choices: problem.choices.map((choice) => ({
      ...choice,
      branches: choice.branches.map((branch) => ({
        ...branch,
        activities: tasks(branch.activities),
      })),
    })),
    published: problem.published && {
      ...problem.published,
      tasks: problem.published.tasks
        .map((task) => ({
          ...task,
          activity: a.place[task.activity],
          builders: people(task.builders),
        }))
        .sort((one, two) => one.activity - two.activity),
    },
  };
  return {
    problem: other,
    forth: (plan) => renamed(plan, a.place, b.place),
    back: (plan) => renamed(plan, a.old, b.old),
  };
}
