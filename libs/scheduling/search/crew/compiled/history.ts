import { functionFor, lagAt, opensAt } from '../../../model/lag.ts';
import type { Anchor, Mode, Problem } from '../../../model/problem.ts';
import { speedFor } from './crews.ts';

interface Done {
  readonly activity: number;
  readonly start: number;
  readonly finish: number;
  readonly builders: readonly number[];
}

/** Combinations of modes looked at before the likeliest are taken as they are. */
const MOST_TRIED = 3000;

/** How well a mode goes with what is known: as many people, able ones, as long as it took. */
function likeness(problem: Problem, mode: Mode, { start, finish, builders }: Done): number {
  const heads = mode.crew.reduce((sum, d) => sum + d.count, 0);
  const speeds = mode.crew.map((d) =>
    builders.map((b) => speedFor(problem, b, d)).filter((speed) => speed > 0),
  );
  const able = speeds.every((list, d) => list.length >= mode.crew[d].count);
  const speed = speeds.flat().reduce((sum, one) => sum + one, 0);
  const minutes =
    heads === 0 ? mode.duration : Math.max(mode.floor, Math.ceil(mode.work / Math.max(1, speed)));
  return (
    4 * Number(heads === builders.length) + 2 * Number(able) + Number(minutes === finish - start)
  );
}

interface Use {
  readonly resource: number;
  readonly amount: number;
  readonly start: number;
  readonly end: number;
}

/** What frozen work took, its holds until what is known of their ends. */
function usesOf(problem: Problem, all: readonly Done[], done: Done, m: number): Use[] {
  const { activity, start, finish } = done;
  const demands = problem.activities[activity].modes[m].demands.map(
    ({ resource, amount }): Use => ({ resource, amount, start, end: finish }),
  );
  const holds = problem.holds.flatMap((hold): Use[] => {
    if (hold.activity !== activity) return [];
    const ends = hold.ends.map((end) => {
      if (end.kind === 'lag') return opensAt(problem, functionFor(end.fns, m), finish);
      return all.find((one) => one.activity === end.activity)?.[end.anchor] ?? -Infinity;
    });
    const { resource, amount } = hold;
    return [{ resource, amount, start, end: Math.max(finish, ...ends) }];
  });
  return [...demands, ...holds].filter(({ amount, start: s, end }) => amount > 0 && s < end);
}

/** Whether the capacity is enough from minute 0 on; use is greatest where one begins or the capacity steps. */
function hasRoom(problem: Problem, uses: readonly Use[]): boolean {
  return problem.resources.every(({ steps }, resource) => {
    const own = uses.filter((use) => use.resource === resource);
    const moments = [
      ...own.map(({ start }) => Math.max(0, start)),
      ...steps.map(({ from }) => from),
    ];
    return moments.every((t) => {
      const used = own.reduce(
        (sum, { start, end, amount }) => sum + (start <= t && t < end ? amount : 0),
        0,
      );
      const capacity = steps.findLast(({ from }) => from <= t)?.capacity ?? 0;
      return used <= capacity;
    });
  });
}

/** Whether stocks can be enough with frozen work done in these modes, the rest as thriftily as it can. */
function hasStock(
  problem: Problem,
  frozen: ReadonlySet<number>,
  modes: readonly number[],
): boolean {
  const optional = new Set(
    problem.choices.flatMap(({ branches }) => branches.flatMap(({ activities }) => activities)),
  );
  return problem.stocks.every(({ total }, stock) => {
    const amount = ({ consumes }: Mode): number =>
      consumes.reduce((sum, one) => sum + (one.stock === stock ? one.amount : 0), 0);
    const used = problem.activities.reduce((sum, { modes: all }, a) => {
      if (frozen.has(a)) return sum + amount(all[modes[a]]);
      return optional.has(a) ? sum : sum + Math.min(...all.map(amount));
    }, 0);
    return used <= total;
  });
}

/**
 * The modes that frozen work was done in, which nobody says: of those that the lags among frozen
 * work and the capacities allow, the likeliest; by activity, 0 where it is not frozen. `lagChoice`:
 * by lag the choice that it belongs to, -1 where it always holds.
 */
export function frozenModes(problem: Problem, lagChoice: ArrayLike<number>): number[] {
  const all = problem.activities.flatMap(({ fixed }, activity): Done[] => {
    if (fixed?.kind !== 'frozen') return [];
    const start = fixed.start ?? 0;
    return [{ activity, start, finish: fixed.finish ?? start, builders: fixed.builders ?? [] }];
  });
  const modes = problem.activities.map(() => 0);
  const orders = all.map((done) =>
    problem.activities[done.activity].modes
      .map((mode, m) => ({ m, likeness: likeness(problem, mode, done) }))
      .sort((a, b) => b.likeness - a.likeness || a.m - b.m)
      .map(({ m }) => m),
  );
  all.forEach(({ activity }, i) => {
    modes[activity] = orders[i][0];
  });
  if (orders.every((order) => order.length === 1)) return modes;
  const at = (a: number, anchor: Anchor): number | undefined =>
    all.find(({ activity }) => activity === a)?.[anchor];
  const lags = problem.lags.filter((_, l) => lagChoice[l] < 0);
  const keepsLags = (a: number, m: number): boolean =>
    lags.every((lag) => {
      const from = at(lag.from, lag.fromAnchor);
      const to = at(lag.to, lag.toAnchor);
      if (lag.from !== a || from === undefined || to === undefined) return true;
      const limit = lagAt(problem, lag, m, from);
      return lag.bound === 'open' ? to >= limit : to <= limit;
    });
  const chosen = [...modes];
  const frozen = new Set(all.map(({ activity }) => activity));
  let tried = 0;
  const extend = (i: number, uses: readonly Use[]): boolean => {
    if (i === all.length) return hasStock(problem, frozen, chosen);
    const { activity } = all[i];
    for (const m of orders[i]) {
      tried += 1;
      if (tried > MOST_TRIED) return false;
      if (!keepsLags(activity, m)) continue;
      const more = [...uses, ...usesOf(problem, all, all[i], m)];
      chosen[activity] = m;
      if (hasRoom(problem, more) && extend(i + 1, more)) return true;
    }
    return false;
  };
  return extend(0, []) ? chosen : modes;
}
