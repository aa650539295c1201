import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { Clauses } from './clauses.ts';
import { Literals } from './literal.ts';
import { DECISION, Trail } from './trail.ts';

const VARIABLES = 6;
const LARGEST = 5;

interface Literal {
  readonly b: number;
  readonly v: number;
}

interface Clause {
  readonly literals: readonly Literal[];
  readonly stamp: number;
}

/** Literals of different bounds, neither true nor false for the widest domains. */
function drawClause(rng: Random, stamp: number): Clause {
  const bounds = new Set<number>();
  const size = 2 + rng.below(4);
  while (bounds.size < size) bounds.add(rng.below(2 * VARIABLES));
  const literals = [...bounds].map((b) => ({
    b,
    v: (b % 2 === 0 ? 1 : 1 - LARGEST) + rng.below(LARGEST),
  }));
  return { literals, stamp };
}

/** Unit propagation by looking at every clause again and again; null on conflict. */
function naively(clauses: readonly Clause[], start: Int32Array): Int32Array | null {
  const bound = start.slice();
  for (let changed = true; changed;) {
    changed = false;
    for (const { literals } of clauses) {
      if (literals.some(({ b, v }) => bound[b] >= v)) continue;
      const open = literals.filter(({ b, v }) => bound[b ^ 1] < 1 - v);
      if (open.length === 0) return null;
      if (open.length > 1) continue;
      bound[open[0].b] = open[0].v;
      changed = true;
    }
  }
  return bound;
}

/** A trail and a clause store, driven as the network drives them. */
class Driver {
  readonly trail: Trail;
  readonly store: Clauses;
  private head = 0;

  constructor() {
    const root = new Int32Array(2 * VARIABLES);
    for (let x = 0; x < VARIABLES; x++) root[2 * x + 1] = -LARGEST;
    this.trail = new Trail(root);
    this.store = new Clauses(this.trail);
  }

  add({ literals, stamp }: Clause): void {
    const list = new Literals();
    for (const { b, v } of literals) list.add(b, v);
    this.store.add(list, stamp, 0);
  }

  propagate(): boolean {
    while (this.head < this.trail.size) {
      const p = this.head++;
      const b = this.trail.entryBound[p];
      if (this.trail.latest[b] === p && !this.store.propagate(b)) return false;
    }
    return true;
  }

  rollBackTo(level: number): void {
    const size = level < this.trail.level ? this.trail.levelStart[level + 1] : this.trail.size;
    while (this.trail.size > size) this.store.rewind(this.trail.pop());
    this.trail.level = level;
    this.head = this.trail.size;
  }

  /** Makes what holds at level 0 root facts. */
  settle(): void {
    this.trail.forget();
    this.head = 0;
  }

  /** Opens a level with a random decision; false if nothing is left to decide. */
  decide(rng: Random): boolean {
    const { bound } = this.trail;
    const open = Array.from({ length: 2 * VARIABLES }, (_, b) => b).filter(
      (b) => bound[b] < -bound[b ^ 1],
    );
    if (open.length === 0) return false;
    const b = open[rng.below(open.length)];
    this.trail.open();
    return this.trail.raise(b, bound[b] + 1 + rng.below(-bound[b ^ 1] - bound[b]), DECISION, 0);
  }
}

/** Random dives and returns, each fixpoint compared; counts conflicts. */
function compare(driver: Driver, clauses: readonly Clause[], rng: Random, seed: string): number {
  let conflicts = 0;
  for (let move = 0; move < 30; move++) {
    if (!driver.decide(rng)) driver.rollBackTo(rng.below(driver.trail.level + 1));
    const expected = naively(clauses, driver.trail.bound);
    const consistent = driver.propagate();
    expect(consistent, seed).toBe(expected !== null);
    if (expected === null) {
      conflicts++;
      driver.rollBackTo(rng.below(driver.trail.level));
    } else expect([...driver.trail.bound], seed).toEqual([...expected]);
  }
  driver.rollBackTo(0);
  return conflicts;
}

describe('clauses', () => {
  it('reach the fixpoint of unit propagation, before and after thinning out', () => {
    let conflicts = 0;
    let implied = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const rng = random(seed);
      const driver = new Driver();
      const clauses = Array.from({ length: 20 + rng.below(40) }, (_, k) => drawClause(rng, k + 1));
      clauses.forEach((clause) => driver.add(clause));
      conflicts += compare(driver, clauses, rng, `seed ${seed}`);
      // A root fact in between: clauses it satisfies and literals it refutes may go.
      if (driver.trail.raise(0, 3, DECISION, 0) && driver.propagate()) {
        driver.settle();
        const keep = 18;
        driver.store.keepRecent(keep, new Literals());
        expect(driver.store.count, `seed ${seed}`).toBeLessThanOrEqual(keep);
        implied++;
        conflicts += compare(driver, clauses.slice(-keep), rng, `seed ${seed}, thinned`);
      }
    }
    expect(conflicts).toBeGreaterThan(100);
    expect(implied).toBeGreaterThan(100);
  });
});
