import type { Lag, LagFunction, Problem } from '#scheduling/model/problem.ts';
import { said } from '../../../oracle/data/functions.ts';
import type { Way } from '../../../oracle/ways/ways.ts';

/** Where the start and the finish of an activity can lie. */
interface Window {
  readonly least: { start: number; finish: number };
  readonly most: { start: number; finish: number };
}

/** What a function allows, at any anchor time. */
const valueOf = ({ tables }: Problem, fn: LagFunction, at: number, opens: boolean): number =>
  fn.kind === 'constant' ? at + fn.minutes : said(tables[fn.table], Math.max(0, at), opens);

/** The last anchor time up to `most` whose opening is no later than `limit`; -1: none. */
function lastAnchor(problem: Problem, lag: Lag, most: number, limit: number): number {
  const opens = (at: number): boolean =>
    lag.fns.some((fn) => valueOf(problem, fn, at, true) <= limit);
  let low = -1;
  let high = most;
  // Openings do not descend.
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (opens(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}

const alwaysThere = ({ activities, choices }: Problem): boolean[] => {
  const optional = new Set(
    choices.flatMap(({ branches }) => branches.flatMap((branch) => branch.activities)),
  );
  return activities.map((_, a) => !optional.has(a));
};

/** Lags that hold whenever both of their activities are there. */
function plainLags({ lags, choices }: Problem): Lag[] {
  const conditional = new Set(
    choices.flatMap(({ branches }) => branches.flatMap((branch) => branch.lags)),
  );
  return lags.filter((_, l) => !conditional.has(l));
}

/** The latest finish of each refit in a plan whose second rank is at most so much. */
function latestFinishes(
  { refits, activities, horizon }: Problem,
  windows: readonly Window[],
  there: readonly boolean[],
  most: number,
): number[] {
  const earliest = refits.map((_, r) =>
    Math.max(
      0,
      ...windows.map(({ least }, a) => (there[a] && activities[a].refit === r ? least.finish : 0)),
    ),
  );
  const all = refits.reduce((sum, { weight }, r) => sum + weight * earliest[r], 0);
  return refits.map(({ weight }, r) =>
    weight === 0
      ? horizon
      : Math.min(horizon, Math.floor((most - (all - weight * earliest[r])) / weight)),
  );
}

/**
 * The ways with those times that can be part of a plan whose second rank is at most `most`
 * (Infinity: any), by openings and closings between activities alone.
 */
export function narrowed(problem: Problem, ways: readonly Way[], most: number): readonly Way[] {
  const { activities } = problem;
  const there = alwaysThere(problem);
  const lags = plainLags(problem);
  const windows = activities.map((_, a): Window => {
    const times = ways.flatMap((way) => (way.activity === a ? way.times : []));
    const starts = times.map(({ start }) => start);
    const finishes = times.map(({ finish }) => finish);
    return {
      least: { start: Math.min(...starts), finish: Math.min(...finishes) },
      most: { start: Math.max(...starts), finish: Math.max(...finishes) },
    };
  });
  let left = ways;
  for (let moved = true; moved;) {
    moved = false;
    const latest = latestFinishes(problem, windows, there, most);
    windows.forEach(({ most: own }, a) => {
      const { refit } = activities[a];
      if (refit !== null) own.finish = Math.min(own.finish, latest[refit]);
    });
    for (const lag of lags) {
      const { from, fromAnchor, to, toAnchor, bound, fns } = lag;
      const [before, after] = [windows[from], windows[to]];
      if (bound === 'close') {
        if (!there[from]) continue;
        const limit = Math.max(
          ...fns.map((fn) => valueOf(problem, fn, before.most[fromAnchor], false)),
        );
        after.most[toAnchor] = Math.min(after.most[toAnchor], limit);
        continue;
      }
      if (there[from]) {
        const least = Math.min(
          ...fns.map((fn) => valueOf(problem, fn, before.least[fromAnchor], true)),
        );
        after.least[toAnchor] = Math.max(after.least[toAnchor], least);
      }
      if (there[to]) {
        const last = lastAnchor(problem, lag, before.most[fromAnchor], after.most[toAnchor]);
        before.most[fromAnchor] = Math.min(before.most[fromAnchor], last);
      }
    }
    left = left.map((way) => {
      const { least, most: latestOwn } = windows[way.activity];
      const times = way.times.filter(
        ({ start, finish }) =>
          least.start <= start &&
          start <= latestOwn.start &&
          least.finish <= finish &&
          finish <= latestOwn.finish,
      );
      if (times.length === way.times.length) return way;
      moved = true;
      return { ...way, times };
    });
    windows.forEach((window, a) => {
      const times = left.flatMap((way) => (way.activity === a ? way.times : []));
      const starts = times.map(({ start }) => start);
      const finishes = times.map(({ finish }) => finish);
      window.least.start = Math.min(...starts);
      window.least.finish = Math.min(...finishes);
      window.most.start = Math.max(...starts);
      window.most.finish = Math.max(...finishes);
    });
  }
  return left.filter(({ times }) => times.length > 0);
}
