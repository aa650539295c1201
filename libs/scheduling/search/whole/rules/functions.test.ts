import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { Literals, lowerOf, upperOf } from '../../../propagation/literal.ts';
import {
  assignments,
  examine,
  noTally,
  rootOf,
  type Small,
  type Tally,
} from '../../../propagation/testing/meaning.ts';
import { Links, type Link, type Literal } from './link.ts';
import { bisected, type Monotone } from './monotone.ts';
import { Price } from './price.ts';
import { Sum, type Term } from './sum.ts';

const LATEST = 5;

const valueOf = (values: readonly number[], b: number): number =>
  (b & 1) === 0 ? values[b >> 1] : -values[b >> 1];
const holds = (values: readonly number[], { b, v }: Literal): boolean => valueOf(values, b) >= v;

/** Steps of nought to two, from minute -LATEST on; constant outside. */
function drawMonotone(rng: Random, first: number): Monotone {
  const shown = [first];
  for (let t = 0; t < 2 * LATEST; t++) shown.push(shown[t] + Math.max(0, rng.below(4) - 1));
  const at = (t: number): number => shown[Math.min(2 * LATEST, Math.max(0, t + LATEST))];
  return bisected(at, -LATEST - 1, LATEST + 1);
}

/** Three moments, two Booleans, and links under up to two literals of any kind. */
function drawLinks(rng: Random): Small {
  const domains = [
    ...Array.from({ length: 3 }, () => [0, LATEST] as const),
    [0, 1] as const,
    [0, 1] as const,
  ];
  const condition = (): Literal => {
    if (rng.below(3) === 0) return { b: lowerOf(rng.below(3)), v: 1 + rng.below(LATEST) };
    const b = 6 + rng.below(4);
    return { b, v: (b & 1) === 0 ? 1 : 0 };
  };
  const links = Array.from({ length: 2 + rng.below(3) }, (): Link => {
    const from = rng.below(3);
    return {
      from,
      to: (from + 1 + rng.below(2)) % 3,
      fn: drawMonotone(rng, rng.below(6) - 6),
      when: Array.from({ length: rng.below(3) }, condition),
    };
  });
  return {
    input: {
      root: rootOf(domains),
      arcs: [],
      propagators: [(trail, reason) => new Links(trail, reason, links, LATEST)],
    },
    solutions: assignments(domains).filter((values) =>
      links.every(
        ({ from, to, fn, when }) =>
          !when.every((literal) => holds(values, literal)) ||
          values[to] >= Math.min(fn.at(values[from]), LATEST),
      ),
    ),
    complete: true,
  };
}

/** Functions of lower and of negated upper bounds of three variables, and a total. */
function drawSum(rng: Random): Small {
  const domains = [...Array.from({ length: 3 }, () => [0, LATEST] as const), [-6, 9] as const];
  const terms = Array.from({ length: 2 + rng.below(2) }, (_, x): Term => ({
    bound: 2 * x + rng.below(2),
    fn: drawMonotone(rng, rng.below(8) - 8),
  }));
  return {
    input: {
      root: rootOf(domains),
      arcs: [],
      propagators: [(trail, reason) => new Sum(trail, reason, terms, 3)],
    },
    solutions: assignments(domains).filter(
      (values) =>
        terms.reduce((sum, { bound, fn }) => sum + fn.at(valueOf(values, bound)), 0) <= values[3],
    ),
    complete: true,
  };
}

/** A start, its price, and a Boolean that may let it off; the price of each start is drawn. */
function drawPrice(rng: Random): Small {
  const domains = [[0, 9] as const, [0, 8] as const, [0, 1] as const];
  const extra = Array.from({ length: 10 }, () => rng.below(5));
  const base = rng.below(4);
  const when = rng.below(3) === 0 ? null : { b: rng.below(2) === 0 ? 4 : 5, v: 0 };
  if (when?.b === 4) when.v = 1;
  const price = {
    start: 0,
    cost: 1,
    base,
    when,
    least: (from: number, to: number): number => Math.min(...extra.slice(from, to + 1)),
  };
  // What is undecided when all else is known stays so: the price refutes no condition.
  const decided = new Literals();
  decided.add(lowerOf(2), 1);
  decided.add(upperOf(2), 0);
  return {
    input: {
      root: rootOf(domains),
      arcs: [],
      clauses: [decided],
      propagators: [(trail, reason) => new Price(trail, reason, price)],
    },
    solutions: assignments(domains).filter(
      (values) => (when !== null && !holds(values, when)) || values[1] >= base + extra[values[0]],
    ),
    complete: true,
  };
}

function examineAll(draw: (rng: Random) => Small, first: number, count: number): Tally {
  const tally = noTally();
  for (let seed = first; seed < first + count; seed++) {
    const rng = random(seed);
    examine(draw(rng), rng, `seed ${seed}`, tally);
  }
  return tally;
}

describe('rules over functions of a moment', () => {
  const kinds = [
    ['monotone lags under conditions', drawLinks],
    ['sums', drawSum],
    ['prices of a start', drawPrice],
  ] as const;
  for (const [k, [what, draw]] of kinds.entries()) {
    it(`${what} remove nothing that has a solution, and say truly why`, () => {
      const tally = examineAll(draw, 1000 * k + 1, 80);
      expect(tally.fixed).toBeGreaterThan(50);
      expect(tally.propagators).toBeGreaterThan(100);
    });
  }
});
