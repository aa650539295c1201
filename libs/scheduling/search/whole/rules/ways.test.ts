import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { Literals, lowerOf, upperOf } from '../../../propagation/literal.ts';
import {
  assignments,
  examine,
  noTally,
  rootOf,
  type Small,
} from '../../../propagation/testing/meaning.ts';
import type { Pieces } from './pieces.ts';
import { Ways, type Way } from './ways.ts';

const ABSENT = 11;
const START = 0;
const FINISH = 1;
const FIRST_WAY = 2;

/** Runs of starts whose finishes never come together or cross. */
function drawPieces(rng: Random): Pieces {
  const low: number[] = [];
  const high: number[] = [];
  const offset: number[] = [];
  let s = rng.below(3);
  let e = 0;
  for (let k = 0; k < 3; k++) {
    const last = s + rng.below(3);
    const length = Math.max(1 + rng.below(3), e - s);
    if (last + length >= ABSENT) break;
    low.push(s);
    high.push(last);
    offset.push(length);
    e = last + length + 1;
    s = last + 1 + rng.below(3);
  }
  return {
    low: Int32Array.from(low),
    high: Int32Array.from(high),
    offset: Int32Array.from(offset),
  };
}

const isPoint = ({ low, high, offset }: Pieces, s: number, e: number): boolean =>
  low.some((from, k) => from <= s && s <= high[k] && e === s + offset[k]);

function clause(...literals: readonly (readonly [b: number, v: number])[]): Literals {
  const all = new Literals();
  for (const [b, v] of literals) all.add(b, v);
  return all;
}

/** One activity that is absent or done in one of up to three ways; the clauses say so. */
function draw(rng: Random): Small {
  const count = 1 + rng.below(3);
  // A single way needs no literal: it is taken whenever the activity is present.
  const bare = count === 1 && rng.below(2) === 0;
  const ways = Array.from({ length: count }, (_, k): Way => {
    const when = bare ? null : { b: lowerOf(FIRST_WAY + k), v: 1 };
    return { when, pieces: drawPieces(rng) };
  });
  const domains = [[0, ABSENT] as const, [0, ABSENT] as const];
  const literals = bare ? 0 : count;
  const some = Array.from({ length: literals }, (_, k) => lowerOf(FIRST_WAY + k));
  const clauses = [
    clause([lowerOf(START), ABSENT], [upperOf(FINISH), 1 - ABSENT]),
    clause([lowerOf(FINISH), ABSENT], [upperOf(START), 1 - ABSENT]),
    ...some.flatMap((b, k) => [
      clause([b ^ 1, 0], [upperOf(START), 1 - ABSENT]),
      ...some.slice(k + 1).map((other) => clause([b ^ 1, 0], [other ^ 1, 0])),
    ]),
  ];
  if (!bare) clauses.push(clause([lowerOf(START), ABSENT], ...some.map((b) => [b, 1] as const)));
  const all = [...domains, ...Array.from({ length: literals }, () => [0, 1] as const)];
  return {
    input: {
      root: rootOf(all),
      arcs: [],
      clauses,
      propagators: [
        (trail, reason) =>
          new Ways(trail, reason, { start: START, finish: FINISH, ways, absent: ABSENT }),
      ],
    },
    solutions: assignments(all).filter(([s, e, ...taken]) => {
      const number = taken.reduce((sum, one) => sum + one, 0);
      if (s === ABSENT || e === ABSENT) return s === e && number === 0;
      if (bare) return isPoint(ways[0].pieces, s, e);
      return number === 1 && isPoint(ways[taken.indexOf(1)].pieces, s, e);
    }),
    complete: true,
  };
}

describe('ways to do an activity', () => {
  it('removes nothing that has a solution, and says truly why', () => {
    const tally = noTally();
    for (let seed = 1; seed <= 200; seed++) {
      const rng = random(seed);
      examine(draw(rng), rng, `seed ${seed}`, tally);
    }
    expect(tally.fixed).toBeGreaterThan(100);
    expect(tally.propagators).toBeGreaterThan(300);
  });
});
