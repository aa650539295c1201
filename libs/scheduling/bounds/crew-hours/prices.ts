import type { Demand, Work } from './demand.ts';
import { minutesIn, type FreeTime } from './capacity.ts';

/**
 * A price for a unit of each kind of work: whole numbers, so that what follows is exact.
 * If the priced work is worth more than all the time in which it could be done, valued at
 * the best price that each minute could fetch, then it cannot be done (weak duality).
 */
export type Prices = readonly number[];

interface Reach {
  readonly ability: number;
  readonly head: number;
  /** Minutes before the end after which none of this kind may be left. */
  readonly tail: number;
  readonly relieved: boolean;
}

/** For each kind of work, when some of it may be done. */
function reachesOf(work: readonly Work[]): Reach[] {
  const reaches = new Map<number, Reach>();
  for (const { ability, head, tail, relieved } of work) {
    const known = reaches.get(ability);
    reaches.set(ability, {
      ability,
      head: Math.min(head, known?.head ?? Infinity),
      tail: Math.min(tail, known?.tail ?? Infinity),
      relieved: relieved || (known?.relieved ?? false),
    });
  }
  return [...reaches.values()];
}

/** The value of the best use of a builder's time until `end`. */
function valueOf(
  demand: Demand,
  reaches: readonly Reach[],
  prices: Prices,
  builder: number,
  free: FreeTime,
  end: number,
): number {
  const uses = reaches.flatMap(({ ability, head, tail, relieved }) => {
    const { builders, rates } = demand.abilities[ability];
    const i = builders.indexOf(builder);
    const value = i < 0 ? 0 : prices[ability] * rates[i];
    return value > 0 && head < end - tail ? [{ value, from: head, to: end - tail, relieved }] : [];
  });
  const cuts = [...new Set(uses.flatMap((u) => [u.from, u.to]))].sort((a, b) => a - b);
  let total = 0;
  for (let k = 0; k + 1 < cuts.length; k += 1) {
    let working = 0;
    let resting = 0;
    for (const use of uses) {
      if (use.from > cuts[k] || use.to < cuts[k + 1]) continue;
      working = Math.max(working, use.value);
      if (use.relieved) resting = Math.max(resting, use.value);
    }
    if (working > 0) total += working * minutesIn(free.work, cuts[k], cuts[k + 1]);
    if (resting > 0) total += resting * minutesIn(free.breaks, cuts[k], cuts[k + 1]);
  }
  return total;
}

/**
 * The earliest minute by which the prices do not rule out that all of `work` is done: one more
 * than the latest that they do. Monotone in the end, hence by bisection; integers throughout
 * (below 2^53 for any yard: prices <= 1000, units <= 10^9).
 */
export function earliestEnd(
  demand: Demand,
  work: readonly Work[],
  free: readonly FreeTime[],
  prices: Prices,
  from: number,
  horizon: number,
): number {
  const worth = work.reduce((sum, { ability, units }) => sum + prices[ability] * units, 0);
  if (worth === 0) return from;
  const reaches = reachesOf(work);
  const enough = (end: number): boolean => {
    let value = 0;
    for (let b = 0; b < free.length; b += 1) {
      value += valueOf(demand, reaches, prices, b, free[b], end);
      if (value >= worth) return true;
    }
    return false;
  };
  let lo = from;
  let hi = horizon + 1;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (enough(mid)) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}
