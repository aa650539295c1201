import type { Lag, LagFunction, Problem } from '#scheduling/model/problem.ts';

/** `start(to) >= start(from) + by[m]`, m being the mode of `from`. */
export interface ShopArc {
  readonly from: number;
  readonly to: number;
  readonly by: readonly number[];
}

/** A problem of modes, constant lags, resources and stocks, in plain lists. */
export interface Shop {
  /** By activity and mode. */
  readonly durations: readonly (readonly number[])[];
  /** By resource, activity and mode. */
  readonly demand: readonly (readonly (readonly number[])[])[];
  readonly capacity: readonly number[];
  /** By stock, activity and mode. */
  readonly consumes: readonly (readonly (readonly number[])[])[];
  readonly total: readonly number[];
  readonly arcs: readonly ShopArc[];
}

const minutesOf = (fn: LagFunction): number => {
  if (fn.kind !== 'constant') throw new Error('a lag that is no constant');
  return fn.minutes;
};

function arcOf(lag: Lag, durations: Shop['durations']): ShopArc {
  if (lag.toAnchor === 'finish') throw new Error('a lag to a finish');
  const by = durations[lag.from].map((duration, m) => {
    const fn = lag.fns.length === 1 ? lag.fns[0] : lag.fns[m];
    return minutesOf(fn) + (lag.fromAnchor === 'finish' ? duration : 0);
  });
  if (lag.bound === 'open') return { from: lag.from, to: lag.to, by };
  if (new Set(by).size > 1) throw new Error('a closing that depends on the mode');
  return { from: lag.to, to: lag.from, by: durations[lag.to].map(() => -by[0]) };
}

const amount = <T>(list: readonly T[], is: (one: T) => boolean, of: (one: T) => number): number =>
  list.filter(is).reduce((sum, one) => sum + of(one), 0);

/** The lists of a benchmark problem without calendars, its people left out. */
export function shopOf({ activities, resources, stocks, lags }: Problem): Shop {
  // The files' people are equally fast: their work takes the floor.
  const durations = activities.map(({ modes }) =>
    modes.map(({ crew, duration, floor }) => (crew.length > 0 ? floor : duration)),
  );
  return {
    durations,
    demand: resources.map((_, r) =>
      activities.map(({ modes }) =>
        modes.map(({ demands }) =>
          amount(
            demands,
            ({ resource }) => resource === r,
            (demand) => demand.amount,
          ),
        ),
      ),
    ),
    capacity: resources.map(({ steps }) => steps[0].capacity),
    consumes: stocks.map((_, k) =>
      activities.map(({ modes }) =>
        modes.map(({ consumes }) =>
          amount(
            consumes,
            ({ stock }) => stock === k,
            (one) => one.amount,
          ),
        ),
      ),
    ),
    total: stocks.map(({ total }) => total),
    arcs: lags.map((lag) => arcOf(lag, durations)),
  };
}

/** Earliest and latest starts under arcs alone; null where they contradict. Bellman-Ford. */
export function windowsOf(
  { durations, arcs }: Shop,
  horizon: number,
): { readonly earliest: number[]; readonly latest: number[] } | null {
  const least = durations.map((own) => Math.min(...own));
  const earliest = durations.map(() => 0);
  const latest = least.map((duration) => horizon - duration);
  for (let round = 0; round <= durations.length + 1; round += 1) {
    let moved = false;
    for (const { from, to, by } of arcs) {
      const gap = Math.min(...by);
      if (earliest[to] < earliest[from] + gap) {
        earliest[to] = earliest[from] + gap;
        moved = true;
      }
      if (latest[from] > latest[to] - gap) {
        latest[from] = latest[to] - gap;
        moved = true;
      }
    }
    if (earliest.some((start, i) => start > latest[i])) return null;
    if (!moved) return { earliest, latest };
  }
  return null;
}
