import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { energy } from './energy.ts';
import { Literals, lowerOf, upperOf } from './literal.ts';
import type { Propagator } from './propagator.ts';
import type { Use } from './timetable.ts';
import { Trail } from './trail.ts';

/**
 * By enumeration: of all placements of a few tasks within the root's bounds that keep the
 * capacity, none is cut off, every explanation implies what it explains, and none satisfies a
 * conflict. The literals must also hold in the state they speak of.
 */
const TASKS = 4;
const LATEST = 7;

interface Tiny {
  readonly trail: Trail;
  readonly rule: Propagator;
  readonly solutions: readonly (readonly number[])[];
}

function draw(rng: Random): Tiny {
  const uses: Use[] = Array.from({ length: TASKS }, (_, x) => ({
    x,
    duration: 1 + rng.below(5),
    amount: 1 + rng.below(3),
  }));
  const capacity = 3 + rng.below(2);
  const root = new Int32Array(2 * TASKS);
  for (let x = 0; x < TASKS; x++) root[upperOf(x)] = -LATEST;
  const trail = new Trail(root);
  const solutions = everything.filter((starts) => fits(capacity, uses, starts));
  return { trail, rule: energy({ capacity, uses })(trail, 3), solutions };
}

const everything = Array.from({ length: (LATEST + 1) ** TASKS }, (_, code) =>
  Array.from({ length: TASKS }, (__, x) => Math.floor(code / (LATEST + 1) ** x) % (LATEST + 1)),
);

function fits(capacity: number, uses: readonly Use[], starts: readonly number[]): boolean {
  for (let t = 0; t < LATEST + 6; t++) {
    let use = 0;
    for (const { x, duration, amount } of uses) {
      if (starts[x] <= t && t < starts[x] + duration) use += amount;
    }
    if (use > capacity) return false;
  }
  return true;
}

const holds = (starts: readonly number[], b: number, v: number): boolean =>
  (b % 2 === 0 ? starts[b >> 1] : -starts[b >> 1]) >= v;

const satisfying = ({ solutions }: Tiny, literals: Literals): (readonly number[])[] =>
  solutions.filter((starts) => {
    for (let k = 0; k < literals.size; k++) {
      if (!holds(starts, literals.bounds[k], literals.values[k])) return false;
    }
    return true;
  });

function expectTrueNow({ trail }: Tiny, literals: Literals, seed: string): void {
  for (let k = 0; k < literals.size; k++) {
    expect(trail.bound[literals.bounds[k]], seed).toBeGreaterThanOrEqual(literals.values[k]);
  }
}

const within = ({ trail, solutions }: Tiny): number =>
  solutions.filter((starts) =>
    starts.every((s, x) => trail.bound[lowerOf(x)] <= s && s <= -trail.bound[upperOf(x)]),
  ).length;

/** Raises a bound of a random task somewhere in its domain, on a level of its own. */
function decide({ trail }: Tiny, rng: Random): void {
  const b = rng.below(2 * TASKS);
  const room = -trail.bound[b] - trail.bound[b ^ 1];
  if (room === 0) return;
  trail.open();
  trail.raise(b, trail.bound[b] + 1 + rng.below(room), 0, 0);
}

/** Takes the trail back and checks every explanation, for a value asked at random. Gives their number. */
function checkExplanations(tiny: Tiny, rng: Random, seed: string): number {
  const { trail, rule } = tiny;
  const reason = new Literals();
  let checked = 0;
  while (trail.size > 0) {
    const p = trail.size - 1;
    const b = trail.entryBound[p];
    const v = trail.bound[b] - rng.below(trail.bound[b] - trail.entryOld[p]);
    trail.pop();
    if (trail.entryReason[p] === 0) continue;
    checked++;
    reason.clear();
    rule.explain(b, v, trail.entryDetail[p], reason);
    expectTrueNow(tiny, reason, seed);
    expect(
      satisfying(tiny, reason).every((starts) => holds(starts, b, v)),
      seed,
    ).toBe(true);
  }
  trail.level = 0;
  rule.rewind();
  return checked;
}

/** Runs the rule to its fixpoint; false on conflict, which is checked. */
function settle(tiny: Tiny, seed: string): boolean {
  const { trail, rule } = tiny;
  const conflict = new Literals();
  for (;;) {
    const before = trail.size;
    const possible = within(tiny);
    if (!rule.propagate(conflict)) {
      if (conflict.size === 0) {
        const b = trail.failedBound;
        rule.explain(b, 1 - trail.bound[b ^ 1], trail.failedDetail, conflict);
        conflict.add(b ^ 1, trail.bound[b ^ 1]);
      }
      expectTrueNow(tiny, conflict, seed);
      expect(satisfying(tiny, conflict), seed).toEqual([]);
      return false;
    }
    expect(within(tiny), seed).toBe(possible);
    if (trail.size === before) return true;
  }
}

describe('energy in windows', () => {
  it('cuts off nothing, and says truly why', () => {
    let conflicts = 0;
    let rises = 0;
    for (let seed = 1; seed <= 250; seed++) {
      const rng = random(seed);
      const tiny = draw(rng);
      // Twice each, so that what was noted of the first dive must not leak into the second.
      for (let dive = 0; dive < 2; dive++) {
        let consistent = settle(tiny, `seed ${seed}`);
        for (let k = 0; k < 6 && consistent; k++) {
          decide(tiny, rng);
          consistent = settle(tiny, `seed ${seed}`);
        }
        if (!consistent) conflicts++;
        rises += checkExplanations(tiny, rng, `seed ${seed}`);
      }
    }
    expect(conflicts).toBeGreaterThan(100);
    expect(rises).toBeGreaterThan(200);
  });

  it('sees what compulsory parts do not: three of two periods in five', () => {
    const root = new Int32Array(6);
    for (let x = 0; x < 3; x++) root[upperOf(x)] = -3;
    const uses = [0, 1, 2].map((x) => ({ x, duration: 2, amount: 1 }));
    const conflict = new Literals();
    expect(energy({ capacity: 1, uses })(new Trail(root), 3).propagate(conflict)).toBe(false);
    expect(conflict.size).toBe(6);
  });
});
