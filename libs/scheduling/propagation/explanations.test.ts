import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import type { Arc } from './arcs.ts';
import { Literals, lowerOf, upperOf } from './literal.ts';
import { Network } from './network.ts';
import type { Use } from './timetable.ts';
import { ARC, DECISION, TIMETABLE } from './trail.ts';

/**
 * Explanations against their meaning: by enumerating every assignment of a tiny network that
 * keeps all constraints, each one that satisfies an explanation must satisfy what it explains,
 * and none may satisfy a conflict. The literals must also hold in the state they speak of.
 */
const TASKS = 4;
const FLAG = TASKS; // one Boolean
const LATEST = 7;

interface Tiny {
  readonly network: Network;
  /** All assignments that keep the constraints. */
  readonly solutions: readonly (readonly number[])[];
}

function draw(rng: Random): Tiny {
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
  const root = new Int32Array(2 * (TASKS + 1));
  for (let x = 0; x < TASKS; x++) root[upperOf(x)] = -LATEST;
  root[upperOf(FLAG)] = -1;
  const solutions = everything.filter(
    (values) => arcs.every((arc) => keeps(arc, values)) && fits(capacity, uses, values),
  );
  return { network: new Network({ root, arcs, supplies: [{ capacity, uses }] }), solutions };
}

function assignments(): number[][] {
  let all: number[][] = [[]];
  for (let x = 0; x <= TASKS; x++) {
    const largest = x === FLAG ? 1 : LATEST;
    all = all.flatMap((part) => Array.from({ length: largest + 1 }, (_, v) => [...part, v]));
  }
  return all;
}

const everything = assignments();

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

const holds = (values: readonly number[], b: number, v: number): boolean =>
  (b % 2 === 0 ? values[b >> 1] : -values[b >> 1]) >= v;

const satisfying = ({ solutions }: Tiny, literals: Literals): (readonly number[])[] =>
  solutions.filter((values) => {
    for (let k = 0; k < literals.size; k++) {
      if (!holds(values, literals.bounds[k], literals.values[k])) return false;
    }
    return true;
  });

function expectTrueNow({ network }: Tiny, literals: Literals, seed: string): void {
  for (let k = 0; k < literals.size; k++) {
    expect(network.trail.bound[literals.bounds[k]], seed).toBeGreaterThanOrEqual(
      literals.values[k],
    );
  }
}

/** Random decisions until a conflict (true) or all is fixed. */
function dive(tiny: Tiny, rng: Random): boolean {
  const { network } = tiny;
  const { bound } = network.trail;
  for (;;) {
    if (!network.propagate()) return true;
    const open = Array.from({ length: TASKS + 1 }, (_, x) => x).filter(
      (x) => bound[lowerOf(x)] < -bound[upperOf(x)],
    );
    if (open.length === 0) return false;
    const x = open[rng.below(open.length)];
    const value = bound[lowerOf(x)] + rng.below(-bound[upperOf(x)] - bound[lowerOf(x)]);
    if (rng.below(2) === 0) network.decide(upperOf(x), -value);
    else network.decide(lowerOf(x), value + 1);
  }
}

/** Takes the trail back entry by entry and checks every explanation, for a value asked at random. */
function checkExplanations(
  tiny: Tiny,
  rng: Random,
  seed: string,
  kinds: Map<number, number>,
): void {
  const { network } = tiny;
  const { trail } = network;
  const reason = new Literals();
  while (trail.size > 0) {
    const p = trail.size - 1;
    const b = trail.entryBound[p];
    const v = trail.bound[b] - rng.below(trail.bound[b] - trail.entryOld[p]);
    network.pop();
    const kind = trail.entryReason[p] & 3;
    if (kind === DECISION) continue;
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
    reason.clear();
    network.explain(p, v, reason);
    expectTrueNow(tiny, reason, seed);
    expect(
      satisfying(tiny, reason).every((values) => holds(values, b, v)),
      seed,
    ).toBe(true);
  }
}

describe('explanations mean what they say', () => {
  it('for arcs, conditions and timetables, and for conflicts', () => {
    const kinds = new Map<number, number>();
    let conflicts = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const rng = random(seed);
      const tiny = draw(rng);
      if (dive(tiny, rng) && tiny.network.trail.level > 0) {
        conflicts++;
        expectTrueNow(tiny, tiny.network.conflict, `seed ${seed}`);
        expect(satisfying(tiny, tiny.network.conflict), `seed ${seed}`).toEqual([]);
      }
      checkExplanations(tiny, rng, `seed ${seed}`, kinds);
    }
    expect(conflicts).toBeGreaterThan(20);
    expect(kinds.get(ARC)).toBeGreaterThan(100);
    expect(kinds.get(TIMETABLE)).toBeGreaterThan(100);
  });

  it('and what is fixed without a conflict is a solution', () => {
    let fixed = 0;
    for (let seed = 1001; seed <= 1150; seed++) {
      const rng = random(seed);
      const tiny = draw(rng);
      if (dive(tiny, rng)) continue;
      fixed++;
      const values = Array.from(
        { length: TASKS + 1 },
        (_, x) => tiny.network.trail.bound[lowerOf(x)],
      );
      expect(tiny.solutions, `seed ${seed}`).toContainEqual(values);
    }
    expect(fixed).toBeGreaterThan(20);
  });
});
