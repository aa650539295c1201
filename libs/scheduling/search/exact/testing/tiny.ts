import { random, type Random } from '#kernel/random.ts';
import type { Activity, Lag, Problem } from '../../../model/problem.ts';
import { mode } from '../../../testing/make.ts';

/** Sizes of a drawn problem; defaults give 3 to 6 activities. */
export interface Size {
  readonly fewest: number;
  readonly most: number;
  readonly horizon: number;
}

const between = (rng: Random, low: number, high: number): number => low + rng.below(high - low + 1);

/**
 * A random pure problem from a seed: minimum and maximum lags between all kinds of anchors,
 * one or two resources, some releases. About a quarter has no plan.
 */
export function drawPure(seed: number, size: Size = { fewest: 3, most: 6, horizon: 12 }): Problem {
  const rng = random(seed);
  const count = between(rng, size.fewest, size.most);
  const resources = between(rng, 1, 2);
  const capacity = Array.from({ length: resources }, () => between(rng, 2, 4));
  const activities = Array.from({ length: count }, (_, i) => drawActivity(rng, i, capacity));
  const lags = Array.from({ length: between(rng, count - 2, count + 2) }, (_, k) =>
    drawLag(rng, k, count),
  );
  return {
    version: 2,
    origin: null,
    now: 0,
    horizon: size.horizon,
    skills: [],
    calendars: [],
    builders: [],
    resources: capacity.map((amount, r) => ({
      id: `R${r}`,
      steps: [{ from: 0, capacity: amount }],
      calendar: null,
      source: `seed ${seed}`,
    })),
    stocks: [],
    spaces: [],
    barriers: [],
    parts: [],
    slotLists: [],
    activities,
    tables: [],
    lags,
    choices: [],
    surfaces: [],
    holds: [],
    refits: [
      {
        id: 'refit',
        release: 0,
        due: null,
        handovers: [],
        weight: between(rng, 1, 3),
        source: `seed ${seed}`,
      },
    ],
    published: null,
    tolerances: [0, 0, 0],
  };
}

function drawActivity(rng: Random, i: number, capacity: readonly number[]): Activity {
  return {
    id: `A${i}`,
    refit: rng.below(8) === 0 ? null : 0,
    modes: [
      mode({
        duration: between(rng, rng.below(6) === 0 ? 0 : 1, 4),
        demands: capacity.map((most, resource) => ({
          resource,
          amount: rng.below(most + 1),
          keptWhilePaused: false,
        })),
      }),
    ],
    releases: rng.below(5) === 0 ? [{ at: between(rng, 1, 3), kind: 'boat', source: `A${i}` }] : [],
    parts: [],
    fixed: null,
    source: `A${i}`,
  };
}

function drawLag(rng: Random, k: number, count: number): Lag {
  const from = rng.below(count);
  const to = (from + 1 + rng.below(count - 1)) % count;
  const open = rng.below(3) > 0 && from < to;
  return {
    id: `L${k}`,
    from,
    fromAnchor: rng.below(2) === 0 ? 'start' : 'finish',
    to,
    toAnchor: rng.below(2) === 0 ? 'start' : 'finish',
    bound: open ? 'open' : 'close',
    fns: [{ kind: 'constant', minutes: open ? between(rng, -1, 3) : between(rng, 1, 7) }],
    kind: 'sequence',
    source: `L${k}`,
  };
}

/**
 * The least makespan and starts that reach it by trying every start of every activity, in
 * whole minutes; null if there is no plan. Written from the problem's own terms: shares
 * nothing with the search.
 */
export function enumerateBest(problem: Problem): { makespan: number; starts: number[] } | null {
  const { activities, horizon } = problem;
  const starts = activities.map(() => 0);
  let best: { makespan: number; starts: number[] } | null = null;
  const place = (i: number, makespan: number): void => {
    if (best !== null && makespan >= best.makespan) return;
    if (i === activities.length) {
      best = { makespan, starts: [...starts] };
      return;
    }
    const { duration } = activities[i].modes[0];
    const first = Math.max(0, ...activities[i].releases.map(({ at }) => at));
    for (let t = first; t + duration <= horizon; t++) {
      starts[i] = t;
      if (!keepsLags(problem, starts, i) || !keepsCapacity(problem, starts, i)) continue;
      place(i + 1, activities[i].refit === null ? makespan : Math.max(makespan, t + duration));
    }
  };
  place(0, 0);
  return best;
}

/** Whether all lags among the first `last + 1` activities that touch `last` hold. */
function keepsLags(problem: Problem, starts: readonly number[], last: number): boolean {
  return problem.lags.every((lag) => {
    const [fn] = lag.fns;
    if (Math.max(lag.from, lag.to) !== last || fn.kind !== 'constant') return true;
    const at = (i: number, anchor: 'start' | 'finish'): number =>
      starts[i] + (anchor === 'finish' ? problem.activities[i].modes[0].duration : 0);
    const limit = at(lag.from, lag.fromAnchor) + fn.minutes;
    return lag.bound === 'open'
      ? at(lag.to, lag.toAnchor) >= limit
      : at(lag.to, lag.toAnchor) <= limit;
  });
}

/** Whether the first `last + 1` activities fit in every minute of the last one. */
function keepsCapacity(problem: Problem, starts: readonly number[], last: number): boolean {
  const amount = (i: number, r: number): number =>
    problem.activities[i].modes[0].demands.find((d) => d.resource === r)?.amount ?? 0;
  const { duration } = problem.activities[last].modes[0];
  for (let t = starts[last]; t < starts[last] + duration; t++) {
    for (let r = 0; r < problem.resources.length; r++) {
      let use = 0;
      for (let i = 0; i <= last; i++) {
        const end = starts[i] + problem.activities[i].modes[0].duration;
        if (starts[i] <= t && t < end) use += amount(i, r);
      }
      if (use > problem.resources[r].steps[0].capacity) return false;
    }
  }
  return true;
}
