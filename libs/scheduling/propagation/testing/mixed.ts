import type { Random } from '#kernel/random.ts';
import type { Arc } from '../arcs.ts';
import { Literals, lowerOf, upperOf } from '../literal.ts';
import { timetable, type Use } from '../timetable.ts';
import { assignments, rootOf, type Small } from './meaning.ts';

/** Starts 0 .. TASKS - 1. */
const TASKS = 4;
const FLAG = TASKS; // one Boolean
const LATEST = 7;

const domains = Array.from({ length: TASKS + 1 }, (_, x) => [0, x === FLAG ? 1 : LATEST] as const);
const everything = assignments(domains);

/** A resource, arcs with and without condition, and clauses over starts and the Boolean. */
export function drawMixed(rng: Random): Small {
  const uses: Use[] = Array.from({ length: TASKS }, (_, x) => ({
    x,
    duration: 1 + rng.below(4),
    amount: 1 + rng.below(2),
  }));
  const capacity = 2 + rng.below(2);
  const arcs: Arc[] = Array.from({ length: rng.below(3) }, () => {
    const from = rng.below(TASKS);
    const to = (from + 1 + rng.below(TASKS - 1)) % TASKS;
    return { from, to, weight: rng.below(6) - 3, when: -1 };
  });
  arcs.push({ from: 0, to: 1, weight: uses[0].duration, when: lowerOf(FLAG) });
  arcs.push({ from: 1, to: 0, weight: uses[1].duration, when: upperOf(FLAG) });
  const clauses = Array.from({ length: rng.below(3) }, () => drawClause(rng));
  return {
    input: { root: rootOf(domains), arcs, clauses, propagators: [timetable({ capacity, uses })] },
    solutions: everything.filter(
      (values) =>
        arcs.every((arc) => keeps(arc, values)) &&
        clauses.every((clause) => meets(clause, values)) &&
        fits(capacity, uses, values),
    ),
    complete: true,
  };
}

/** Bounds may repeat, and literals be true or false from the beginning. */
function drawClause(rng: Random): Literals {
  const clause = new Literals();
  const size = 1 + rng.below(4);
  for (let k = 0; k < size; k++) {
    const b = rng.below(2 * (TASKS + 1));
    const largest = b >> 1 === FLAG ? 1 : LATEST;
    clause.add(b, rng.below(largest + 2) - ((b & 1) === 0 ? 0 : largest + 1));
  }
  return clause;
}

function meets(clause: Literals, values: readonly number[]): boolean {
  for (let k = 0; k < clause.size; k++) {
    const b = clause.bounds[k];
    if ((b % 2 === 0 ? values[b >> 1] : -values[b >> 1]) >= clause.values[k]) return true;
  }
  return false;
}

function keeps({ from, to, weight, when }: Arc, values: readonly number[]): boolean {
  const applies = when < 0 || (when === lowerOf(FLAG) ? values[FLAG] === 1 : values[FLAG] === 0);
  return !applies || values[to] >= values[from] + weight;
}

function fits(capacity: number, uses: readonly Use[], values: readonly number[]): boolean {
  for (let t = 0; t < LATEST + 5; t++) {
    const running = uses.filter((u) => values[u.x] <= t && t < values[u.x] + u.duration);
    if (running.reduce((sum, u) => sum + u.amount, 0) > capacity) return false;
  }
  return true;
}
