import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { Literals, lowerOf, upperOf } from '../../propagation/literal.ts';
import { Network } from '../../propagation/network.ts';
import { DECISION } from '../../propagation/trail.ts';
import type { Small } from '../../propagation/testing/meaning.ts';
import { drawMixed } from '../../propagation/testing/mixed.ts';
import { ActivityBranching } from './branching.ts';
import { earliestFirst, inOrder } from './dives.ts';
import { guard } from './guard.ts';
import { LearningSearch, type Event, type LearningOptions } from './search.ts';

const seeds = (first: number, count: number): number[] =>
  Array.from({ length: count }, (_, k) => first + k);

/** The objective of all draws: the start of the last task. */
const LAST = 3;
const LIMIT = 2000;

const branchingOf = (network: Network): ActivityBranching =>
  new ActivityBranching(network, { dive: () => false, quiet: [], phase: 'last' });

function searchOf(small: Small, options: LearningOptions): LearningSearch {
  const network = new Network(small.input);
  const variables = Int32Array.from(network.trail.bound.subarray(1, 6), (_, x) => x);
  const starts = earliestFirst(network, variables.subarray(0, LAST + 1));
  const rest = inOrder(network, variables);
  const branching = new ActivityBranching(network, {
    dive: () => starts() || rest(),
    quiet: options.objective === null ? [] : [options.objective],
    phase: 'last',
  });
  return new LearningSearch(network, branching, options);
}

const holds = (values: ArrayLike<number>, b: number, v: number): boolean =>
  (b % 2 === 0 ? values[b >> 1] : -values[b >> 1]) >= v;

function holdAll(values: ArrayLike<number>, literals: Literals): boolean {
  for (let k = 0; k < literals.size; k++)
    if (!holds(values, literals.bounds[k], literals.values[k])) return false;
  return true;
}

function drawLiterals(rng: Random, count: number): Literals {
  const literals = new Literals();
  for (let k = 0; k < count; k++) {
    const b = rng.below(2 * (LAST + 1));
    literals.add(b, (b % 2 === 0 ? 1 : -6) + rng.below(6));
  }
  return literals;
}

/** The least objective that the search proves, null if it has no solution. */
function minimise(search: LearningSearch, seed: string): number | null {
  let best: number | null = null;
  for (let k = 0; k < LIMIT; k++) {
    const event = search.next();
    if (event === 'exhausted') return best;
    if (event === 'solution') {
      best = search.values[LAST];
      if (!search.tighten(best - 1)) return best;
    }
  }
  throw new Error(`${seed}: no end after ${LIMIT} events`);
}

const sorted = (solutions: readonly (readonly number[])[]): (readonly number[])[] =>
  [...solutions].sort((a, b) => a[LAST] - b[LAST]);

describe('a learning search', () => {
  it('finds the least objective, and none of its clauses cuts the optimum off', () => {
    let infeasible = 0;
    for (const n of seeds(1, 150)) {
      const seed = `seed ${n}`;
      const small = drawMixed(random(n));
      const known = sorted(small.solutions).at(0);
      let target = Infinity;
      const observer = guard(known ?? [], () => known !== undefined && target > known[LAST]);
      const search: LearningSearch = searchOf(small, {
        objective: LAST,
        observer: (clause) => {
          target = -search.network.trail.bound[upperOf(LAST)] + 1;
          observer(clause);
        },
      });
      if (known === undefined) infeasible++;
      expect(minimise(search, seed), seed).toBe(known?.[LAST] ?? null);
    }
    expect(infeasible).toBeGreaterThan(5);
    expect(infeasible).toBeLessThan(120);
  });

  it('under assumptions gives a solution that keeps them, or a core that has none', () => {
    const events = new Map<Event, number>();
    let smaller = 0;
    for (const n of seeds(1001, 60)) {
      const rng = random(n);
      const small = drawMixed(rng);
      const search = searchOf(small, { objective: null });
      for (let round = 0; round < 8; round++) {
        const seed = `seed ${n}, round ${round}`;
        const assumed = drawLiterals(rng, 1 + rng.below(4));
        search.assume(assumed);
        const event = search.run(LIMIT);
        events.set(event, (events.get(event) ?? 0) + 1);
        const left = small.solutions.filter((values) => holdAll(values, assumed));
        if (left.length > 0) expect(event, seed).toBe('solution');
        else if (small.solutions.length > 0) expect(event, seed).toBe('refuted');
        else expect(['refuted', 'exhausted'], seed).toContain(event);
        if (event === 'solution') {
          expect(small.solutions, seed).toContainEqual([...search.values]);
          expect(holdAll(search.values, assumed), seed).toBe(true);
        }
        if (event !== 'refuted') continue;
        const { core, coreOf } = search;
        expect(
          small.solutions.some((values) => holdAll(values, core)),
          seed,
        ).toBe(false);
        expect(new Set(coreOf).size, seed).toBe(core.size);
        coreOf.forEach((a, k) => {
          expect(core.bounds[k], seed).toBe(assumed.bounds[a]);
          expect(core.values[k], seed).toBeLessThanOrEqual(assumed.values[a]);
        });
        if (core.size < assumed.size) smaller++;
      }
    }
    expect(events.get('solution')).toBeGreaterThan(50);
    expect(events.get('refuted')).toBeGreaterThan(50);
    expect(smaller).toBeGreaterThan(20);
  });

  it('gives every solution once if each is refused', () => {
    for (const n of seeds(2001, 40)) {
      const rng = random(n);
      const small = drawMixed(rng);
      const search = searchOf(small, { objective: null });
      // Few enough to list: those that begin with two drawn values.
      const given = [rng.below(8), rng.below(8)];
      for (const [x, value] of given.entries()) {
        for (const [b, v] of [
          [lowerOf(x), value],
          [upperOf(x), -value],
        ]) {
          const unit = new Literals();
          unit.add(b, v);
          search.require(unit);
        }
      }
      const found: string[] = [];
      for (let event = search.run(LIMIT); event === 'solution'; event = search.run(LIMIT)) {
        found.push([...search.values].join());
        const others = new Literals();
        search.values.forEach((value, x) => {
          others.add(lowerOf(x), value + 1);
          others.add(upperOf(x), 1 - value);
        });
        if (!search.require(others)) break;
      }
      const expected = small.solutions.filter(([a, b]) => a === given[0] && b === given[1]);
      expect(found.sort(), `seed ${n}`).toEqual(expected.map((v) => v.join()).sort());
    }
  });

  it('comes to the same with hardly any room for clauses', () => {
    for (const n of seeds(3001, 40)) {
      const small = drawMixed(random(n));
      const known = sorted(small.solutions).at(0);
      const search = searchOf(small, { objective: LAST, clauseBytes: 200 });
      const before = search.network.clauses.bytes;
      let most = 0;
      let best: number | null = null;
      for (let k = 0; k < LIMIT; k++) {
        const event = search.next();
        most = Math.max(most, search.network.clauses.bytes - before);
        if (event === 'solution') {
          best = search.values[LAST];
          if (search.tighten(best - 1)) continue;
        }
        if (event !== 'conflict') break;
      }
      expect(best, `seed ${n}`).toBe(known?.[LAST] ?? null);
      // The limit, and one clause learned beyond it.
      expect(most, `seed ${n}`).toBeLessThan(600);
    }
  });

  it('keeps its target where clauses are thinned on the way to the root', () => {
    let thinned = 0;
    for (const n of seeds(1, 400)) {
      const search = searchOf(drawMixed(random(n)), { objective: LAST, clauseBytes: 0 });
      const { clauses, trail } = search.network;
      let target = 6;
      for (let event = search.next(); event !== 'exhausted'; event = search.next()) {
        // After a conflict there is a clause more than there is room for.
        const { count } = clauses;
        if (!search.tighten(target)) break;
        if (count > clauses.count) thinned++;
        expect(-trail.bound[upperOf(LAST)], `seed ${n}`).toBeLessThanOrEqual(target);
        target--;
      }
    }
    expect(thinned).toBeGreaterThan(5);
  });

  it('thins no clause by facts that it has not seen', () => {
    const network = new Network({
      root: Int32Array.of(0, -2, 0, -2),
      arcs: [],
      propagators: [],
    });
    const search = new LearningSearch(network, branchingOf(network), {
      objective: null,
      clauseBytes: 0,
    });
    const literal = (b: number, v: number, ...more: number[]): Literals => {
      const all = new Literals();
      all.add(b, v);
      if (more.length > 0) all.add(more[0], more[1]);
      return all;
    };
    const { clauses, trail } = network;
    network.require(literal(lowerOf(0), 1, lowerOf(1), 1));
    // One that may be dropped, so that there is something to thin; its truth is no matter.
    clauses.add(literal(upperOf(0), -1, upperOf(1), -1), 1, 0);
    trail.raise(upperOf(0), 0, DECISION, 0);
    search.toRoot();
    expect(clauses.count).toBe(0);
    expect(network.propagate()).toBe(true);
    expect(trail.bound[lowerOf(1)]).toBe(1);
    expect(search.require(literal(upperOf(1), 0))).toBe(false);
  });

  it('gives every solution where clauses are thinned while facts are pending', () => {
    let pending = 0;
    for (const n of seeds(4001, 60)) {
      const small = drawMixed(random(n));
      const known = new Set(small.solutions.map((values) => values.join()));
      const search = searchOf(small, { objective: null, clauseBytes: 200 });
      const { clauses, trail } = search.network;
      for (let k = 0; k < 200; k++) {
        const event = search.next();
        if (event === 'conflict') {
          if (trail.level > 0) continue;
          const { count } = clauses;
          search.assume(new Literals());
          if (clauses.count < count) pending++;
          continue;
        }
        if (event !== 'solution') {
          expect(known.size, `seed ${n}`).toBe(0);
          break;
        }
        expect(known.delete(search.values.join()), `seed ${n}`).toBe(true);
        const others = new Literals();
        search.values.forEach((value, x) => {
          others.add(lowerOf(x), value + 1);
          others.add(upperOf(x), 1 - value);
        });
        search.require(others);
      }
    }
    expect(pending).toBeGreaterThan(5);
  });

  it('comes to the same by slices of work', () => {
    let slices = 0;
    for (const n of seeds(5001, 40)) {
      const small = drawMixed(random(n));
      const whole = searchOf(small, { objective: LAST });
      const cut = searchOf(small, { objective: LAST });
      for (let k = 0; k < LIMIT; k++) {
        const event = whole.next();
        let other = cut.advance(1);
        for (; other === 'open'; other = cut.advance(1)) slices++;
        expect(other, `seed ${n}`).toBe(event);
        if (event === 'exhausted') break;
        if (event !== 'solution') continue;
        expect(cut.values, `seed ${n}`).toEqual(whole.values);
        const next = whole.values[LAST] - 1;
        expect(cut.tighten(next), `seed ${n}`).toBe(whole.tighten(next));
      }
      expect(cut.conflicts, `seed ${n}`).toBe(whole.conflicts);
      expect(cut.network.work, `seed ${n}`).toBe(whole.network.work);
    }
    expect(slices).toBeGreaterThan(300);
  });
});
