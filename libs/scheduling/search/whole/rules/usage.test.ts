import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import type { Arc } from '../../../propagation/arcs.ts';
import { examine, noTally, rootOf, type Small } from '../../../propagation/testing/meaning.ts';
import { absentThroughout, drawHours, TASKS, withFinishes } from '../testing/uses.ts';
import type { Step, Use } from './occupancy.ts';
import { Usage } from './usage.ts';

const ABSENT = 5;

/** Starts 0 .. 2, finishes 3 .. 5 (up to two later), amounts of some uses from 6 on. */
function draw(rng: Random): Small {
  const steps: Step[] = [{ from: 0, capacity: 1 + rng.below(3) }];
  if (rng.below(2) === 0) steps.push({ from: 2, capacity: rng.below(4) });
  const domains: (readonly [number, number])[] = [
    ...Array.from({ length: TASKS }, () => [0, ABSENT - rng.below(2)] as const),
    ...Array.from({ length: TASKS }, () => [0, ABSENT] as const),
  ];
  const arcs: Arc[] = [];
  const uses = Array.from({ length: TASKS }, (_, k): Use => {
    arcs.push({ from: k, to: TASKS + k, weight: 0, when: -1 });
    arcs.push({ from: TASKS + k, to: k, weight: -2, when: -1 });
    const times = rng.below(3) === 0 ? domains.push([0, 2]) - 1 : null;
    const amount = 1 + rng.below(2);
    const tail = rng.below(2);
    return { start: k, finish: TASKS + k, tail, amount, times, hours: drawHours(rng) };
  });
  return {
    input: {
      root: rootOf(domains),
      arcs,
      clauses: absentThroughout(uses, ABSENT),
      propagators: [(trail, reason) => new Usage(trail, reason, { steps, uses, absent: ABSENT })],
    },
    solutions: withFinishes(domains, ABSENT, 2).filter((values) => fits(steps, uses, values)),
    complete: true,
  };
}

/** At every moment before that of absent work. */
function fits(steps: readonly Step[], uses: readonly Use[], values: readonly number[]): boolean {
  for (let t = 0; t < ABSENT; t++) {
    const { capacity } = steps[steps.length > 1 && t >= steps[1].from ? 1 : 0];
    const taken = uses.reduce((sum, use) => sum + amountAt(use, t, values), 0);
    if (taken > capacity) return false;
  }
  return true;
}

function amountAt(use: Use, t: number, values: readonly number[]): number {
  const { start, finish, tail, amount, times, hours } = use;
  if (values[start] > t || values[finish] + tail <= t) return 0;
  if (hours?.starts.some((from, i) => from <= t && t < hours.ends[i]) === false) return 0;
  return times === null ? amount : amount * values[times];
}

describe('use of a resource by work of variable length, amount and presence', () => {
  it('removes nothing that has a solution, and says truly why', () => {
    const tally = noTally();
    for (let seed = 1; seed <= 32; seed++) {
      const rng = random(seed);
      examine(draw(rng), rng, `seed ${seed}`, tally);
    }
    expect(tally.fixed).toBeGreaterThan(8);
    expect(tally.conflicts).toBeGreaterThan(4);
    expect(tally.propagators).toBeGreaterThan(80);
  });
});
