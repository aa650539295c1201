import type { Refute } from './refute.ts';
import type { Cost } from './vectors.ts';

/** Refits that are taken together at most: 2^10 sets. */
const TOGETHER = 10;

/** For sets of some refits, as bits, a minute before which not all of a set can be finished. */
export interface SetEnds {
  readonly refits: readonly number[];
  readonly ends: Float64Array;
}

/** The refits of most weight, the heaviest first. */
export const heaviest = (weights: readonly number[], count: number): number[] =>
  weights
    .map((_, r) => r)
    .sort((a, b) => weights[b] - weights[a] || a - b)
    .slice(0, count);

export function noEnds(weights: readonly number[]): SetEnds {
  const refits = heaviest(weights, TOGETHER);
  return { refits, ends: new Float64Array(1 << refits.length) };
}

/** The end of a set is one of every larger set too. */
export function spread({ refits, ends }: SetEnds): void {
  for (let set = 1; set < ends.length; set += 1)
    for (let i = 0; i < refits.length; i += 1)
      if (set & (1 << i)) ends[set] = Math.max(ends[set], ends[set ^ (1 << i)]);
}

/**
 * Raises the end of a set to the first minute that `refute` does not exclude for all of it, by doubled
 * steps and then by halves. Yields before each call.
 */
function* raiseEnd(
  { refits, ends }: SetEnds,
  set: number,
  least: readonly number[],
  horizon: number,
  refute: Refute,
): Generator<undefined, void> {
  const own = refits.filter((_, i) => (set & (1 << i)) !== 0);
  let low = own.reduce((most, r) => Math.max(most, least[r]), ends[set]);
  let high = horizon + 1;
  let step = 60;
  while (low < high) {
    const at = high > horizon ? Math.min(horizon, low + step) : (low + high) >> 1;
    yield;
    if (refute(least.map((_, r) => (own.includes(r) ? at : Infinity)))) {
      low = at + 1;
      step *= 2;
    } else high = at;
  }
  ends[set] = low;
}

/**
 * Raises the ends of those sets that decide the least cost over all orders: the sets along a best
 * order, again and again until they are all as late as `refute` can show. Yields before each call.
 */
export function* raiseEnds(
  sets: SetEnds,
  least: readonly number[],
  horizon: number,
  cost: Cost,
  refute: Refute,
): Generator<undefined, void> {
  const known = new Set<number>();
  for (;;) {
    const next = bestOrder(sets, least, cost).sets.find((set) => !known.has(set));
    if (next === undefined) return;
    known.add(next);
    yield* raiseEnd(sets, next, least, horizon, refute);
    spread(sets);
  }
}

interface BestOrder {
  readonly cost: number;
  /** Those that have finished after each refit, as bits, the largest first. */
  readonly sets: readonly number[];
}

/**
 * The least cost over all orders in which the refits may finish. The last of a set to finish does so
 * no earlier than the set's end, nor than its own; a dynamic programme over sets (Held & Karp, J. SIAM
 * 10, 1962). Refits that are not taken together cost what they do by themselves.
 */
export function bestOrder(
  { refits, ends }: SetEnds,
  least: readonly number[],
  cost: Cost,
): BestOrder {
  const best = new Float64Array(ends.length).fill(Infinity);
  const last = new Int8Array(ends.length);
  best[0] = 0;
  for (let set = 1; set < ends.length; set += 1)
    for (let i = 0; i < refits.length; i += 1) {
      if ((set & (1 << i)) === 0) continue;
      const r = refits[i];
      const total = best[set ^ (1 << i)] + cost(r, Math.max(least[r], ends[set]));
      if (total >= best[set]) continue;
      best[set] = total;
      last[set] = i;
    }
  const path: number[] = [];
  for (let set = ends.length - 1; set > 0; set ^= 1 << last[set]) path.push(set);
  const alone = least.reduce(
    (sum, finish, r) => (refits.includes(r) ? sum : sum + cost(r, finish)),
    0,
  );
  return { cost: best[ends.length - 1] + alone, sets: path };
}
