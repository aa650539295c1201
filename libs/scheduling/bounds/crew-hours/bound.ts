import type { Analysis } from '../critical-path.ts';
import { promise } from '../promise.ts';
import { freeTimes, type FreeTime } from './capacity.ts';
import { demandOf, type Demand, type Work } from './demand.ts';
import { earliestEnd, type Prices } from './prices.ts';
import { pricesFor } from './programme.ts';

/** Refits that are taken together; the others keep their own bounds. 2^7 sets at most. */
const TOGETHER = 7;
/** Linear programmes solved at most; each takes some milliseconds. */
const PROGRAMMES = 60;
/** Programmes for one set of refits: the end moves out with each. */
const REPEATS = 3;

/** The earliest minute by which the crew could have done the work, by plain prices and then by the programme's. */
function endOf(
  demand: Demand,
  work: readonly Work[],
  free: readonly FreeTime[],
  from: number,
  horizon: number,
  budget: { left: number },
): number {
  const kinds = [...new Set(work.map((w) => w.ability))];
  const plain: Prices[] = [
    demand.abilities.map(() => 1),
    ...kinds.map((k) => demand.abilities.map((_, i) => (i === k ? 1 : 0))),
  ];
  let end = from;
  for (const prices of plain) end = earliestEnd(demand, work, free, prices, end, horizon);
  for (let k = 0; k < REPEATS && budget.left > 0 && end <= horizon; k += 1) {
    budget.left -= 1;
    const prices = pricesFor(demand, work, free, end);
    if (!prices) break;
    const later = earliestEnd(demand, work, free, prices, end, horizon);
    if (later === end) break;
    end = later;
  }
  return end;
}

/**
 * Lower bounds of both ranks from crew hours. For each set S of refits, T(S) is a minute before
 * which the crew cannot have done all the work of S. Order the refits of any plan by
 * finish: the k-th finishes no earlier than T of the first k. So the least sum over all
 * orders, a dynamic programme over sets, bounds every plan; the critical path's bounds
 * `least` of single refits are used in it.
 */
export function crewHours(analysis: Analysis): readonly [number, number] {
  const { problem } = analysis.root;
  const { refits, horizon } = problem;
  const least = analysis.finishes;
  const demand = demandOf(analysis);
  const free = freeTimes(problem);
  const heavy = refits
    .map((_, r) => r)
    .sort((a, b) => refits[b].weight - refits[a].weight || a - b)
    .slice(0, TOGETHER);
  const sets = 1 << heavy.length;
  const ends = new Float64Array(sets);
  const budget = { left: PROGRAMMES };
  // Large sets first: they decide most, should the programmes run out.
  const order = Array.from({ length: sets - 1 }, (_, i) => sets - 1 - i);
  order.sort((a, b) => popcount(b) - popcount(a) || a - b);
  for (const set of order) {
    const members = heavy.filter((_, i) => (set & (1 << i)) !== 0);
    const work = demand.work.filter((w) => members.includes(w.refit));
    ends[set] = work.length === 0 ? 0 : endOf(demand, work, free, 0, horizon, budget);
  }
  for (let set = 1; set < sets; set += 1)
    for (let i = 0; i < heavy.length; i += 1)
      if (set & (1 << i)) ends[set] = Math.max(ends[set], ends[set ^ (1 << i)]);
  const cost = (r: number, finish: number, rank: 0 | 1): number =>
    rank === 1 ? refits[r].weight * finish : promise(problem, r, finish);
  const total = (rank: 0 | 1): number => {
    const best = new Float64Array(sets).fill(Infinity);
    best[0] = 0;
    for (let set = 1; set < sets; set += 1)
      heavy.forEach((r, i) => {
        if ((set & (1 << i)) === 0) return;
        best[set] = Math.min(
          best[set],
          best[set ^ (1 << i)] + cost(r, Math.max(least[r], ends[set]), rank),
        );
      });
    const others = refits.reduce(
      (sum, _, r) => (heavy.includes(r) ? sum : sum + cost(r, least[r], rank)),
      0,
    );
    return best[sets - 1] + others;
  };
  return [total(0), total(1)];
}

function popcount(set: number): number {
  let count = 0;
  for (let rest = set; rest > 0; rest &= rest - 1) count += 1;
  return count;
}
