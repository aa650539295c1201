import type { Analysis } from '../critical-path.ts';
import { bestOrder, heaviest, spread } from '../finishes/orders.ts';
import { promise } from '../promise.ts';
import { freeTimes, type FreeTime } from './capacity.ts';
import { demandOf, type Demand, type Work } from './demand.ts';
import { earliestEnd, type Prices } from './prices.ts';
import { pricesFor } from './programme.ts';

/** Refits that are taken together; the others keep their own bounds. 2^7 sets at most. */
export const TOGETHER = 7;
/** Linear programmes solved at most; each takes some milliseconds. */
const PROGRAMMES = 60;
/** Programmes for one set of refits: the end moves out with each. */
const REPEATS = 3;

/**
 * The earliest minute by which the crew could have done the work, by plain prices and then by the programme's.
 * Yields before each programme.
 */
function* endOf(
  demand: Demand,
  work: readonly Work[],
  free: readonly FreeTime[],
  from: number,
  horizon: number,
  budget: { left: number },
): Generator<undefined, number> {
  const kinds = [...new Set(work.map((w) => w.ability))];
  const plain: Prices[] = [
    demand.abilities.map(() => 1),
    ...kinds.map((k) => demand.abilities.map((_, i) => (i === k ? 1 : 0))),
  ];
  let end = from;
  for (const prices of plain) end = earliestEnd(demand, work, free, prices, end, horizon);
  for (let k = 0; k < REPEATS && budget.left > 0 && end <= horizon; k += 1) {
    budget.left -= 1;
    yield;
    const prices = pricesFor(demand, work, free, end);
    if (!prices) break;
    const later = earliestEnd(demand, work, free, prices, end, horizon);
    if (later === end) break;
    end = later;
  }
  return end;
}

/**
 * For sets of refits, as bits over `refits`, a minute before which the crew cannot have done all of
 * their work. Yields before each set and programme; large ones come first: they decide most, should the
 * programmes run out.
 */
export function* crewEnds(
  analysis: Analysis,
  refits: readonly number[],
): Generator<undefined, Float64Array> {
  const { problem } = analysis.root;
  const demand = demandOf(analysis);
  const free = freeTimes(problem);
  const ends = new Float64Array(1 << refits.length);
  const budget = { left: PROGRAMMES };
  const order = Array.from({ length: ends.length - 1 }, (_, i) => ends.length - 1 - i);
  order.sort((a, b) => popcount(b) - popcount(a) || a - b);
  for (const set of order) {
    yield;
    const members = refits.filter((_, i) => (set & (1 << i)) !== 0);
    const work = demand.work.filter((w) => members.includes(w.refit));
    ends[set] =
      work.length === 0 ? 0 : yield* endOf(demand, work, free, 0, problem.horizon, budget);
  }
  spread({ refits, ends });
  return ends;
}

/** Lower bounds of both ranks from crew hours and the critical path's bounds of single refits. */
export function crewHours(analysis: Analysis): readonly [number, number] {
  const { problem } = analysis.root;
  const { refits } = problem;
  const heavy = heaviest(
    refits.map(({ weight }) => weight),
    TOGETHER,
  );
  const running = crewEnds(analysis, heavy);
  for (;;) {
    const step = running.next();
    if (step.done !== true) continue;
    const sets = { refits: heavy, ends: step.value };
    return [
      bestOrder(sets, analysis.finishes, (r, finish) => promise(problem, r, finish)).cost,
      bestOrder(sets, analysis.finishes, (r, finish) => refits[r].weight * finish).cost,
    ];
  }
}

function popcount(set: number): number {
  let count = 0;
  for (let rest = set; rest > 0; rest &= rest - 1) count += 1;
  return count;
}
