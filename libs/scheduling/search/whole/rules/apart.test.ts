import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import type { Arc } from '../../../propagation/arcs.ts';
import { examine, noTally, rootOf, type Small } from '../../../propagation/testing/meaning.ts';
import { absentThroughout, drawHours, TASKS, withFinishes } from '../testing/uses.ts';
import { Apart } from './apart.ts';
import type { Use } from './occupancy.ts';

const ABSENT = 4;

/** Starts 0 .. 2, finishes 3 .. 5 (up to one later), whether some are there from 6 on; the first has hours. */
function draw(rng: Random): Small {
  const all = [[0, 1] as const, [0, 2] as const, [1, 2] as const];
  const pairs = all.filter(() => rng.below(6) > 0);
  const domains: (readonly [number, number])[] = [
    ...Array.from({ length: TASKS }, () => [0, 1 + rng.below(ABSENT)] as const),
    ...Array.from({ length: TASKS }, () => [0, ABSENT] as const),
  ];
  const arcs: Arc[] = [];
  const uses = Array.from({ length: TASKS }, (_, k): Use => {
    arcs.push({ from: k, to: TASKS + k, weight: 0, when: -1 });
    arcs.push({ from: TASKS + k, to: k, weight: -1, when: -1 });
    const times = rng.below(3) === 0 ? domains.push([0, 1]) - 1 : null;
    const tail = rng.below(3);
    const hours = k === 0 ? drawHours(rng) : null;
    return { start: k, finish: TASKS + k, tail, amount: 1, times, hours };
  });
  return {
    input: {
      root: rootOf(domains),
      arcs,
      clauses: absentThroughout(uses, ABSENT),
      propagators: [(trail, reason) => new Apart(trail, reason, { uses, pairs, absent: ABSENT })],
    },
    solutions: withFinishes(domains, ABSENT, 1).filter((values) => fits(pairs, uses, values)),
    complete: true,
  };
}

/** At every moment before that of absent work. */
function fits(
  pairs: readonly (readonly [number, number])[],
  uses: readonly Use[],
  values: readonly number[],
): boolean {
  for (let t = 0; t < ABSENT; t++) {
    const here = uses.map((use) => amountAt(use, t, values) > 0);
    if (pairs.some(([one, other]) => here[one] && here[other])) return false;
  }
  return true;
}

function amountAt(use: Use, t: number, values: readonly number[]): number {
  const { start, finish, tail, amount, times, hours } = use;
  if (values[start] > t || values[finish] + tail <= t) return 0;
  if (hours?.starts.some((from, i) => from <= t && t < hours.ends[i]) === false) return 0;
  return times === null ? amount : amount * values[times];
}

describe('uses that are never there together', () => {
  it('removes nothing that has a solution, and says truly why', () => {
    const tally = noTally();
    for (let seed = 1; seed <= 100; seed++) {
      const rng = random(seed);
      examine(draw(rng), rng, `seed ${seed}`, tally);
    }
    expect(tally.fixed).toBeGreaterThan(8);
    expect(tally.conflicts).toBeGreaterThan(8);
    expect(tally.propagators).toBeGreaterThan(400);
  });
});
