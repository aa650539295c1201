import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { check } from '../../checker/check.ts';
import type { Plan, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import type { Search } from '../search.ts';
import { createDestructive } from './destructive.ts';
import { createExact } from './exact.ts';
import { closeRoot } from './layout.ts';
import { createNeighbourhood } from './neighbourhood.ts';
import { Parts } from './part.ts';
import { isFeasible, makespanOf, toPureModel } from './pure.ts';
import { PureSearch } from './search.ts';
import { drawPure, enumerateBest } from './testing/tiny.ts';

const seeds = (first: number, count: number): number[] =>
  Array.from({ length: count }, (_, k) => first + k);

const LARGER = { fewest: 10, most: 14, horizon: 60 };

/** An optimal plan, as the exact search gives it; null if there is none. */
function optimum(problem: Problem): Plan | null {
  const state = createExact(problem, 1, null).step(20_000);
  expect(state.done).toBe(true);
  return state.plan;
}

/** Steps one by one: every plan shown is one, and no bound is above the least makespan. */
function watch(search: Search, problem: Problem, best: Plan, steps: number): SearchState {
  let state = search.step(0);
  for (let k = 0; k < steps && !state.done; k++) {
    const before = state.plan;
    state = search.step(1);
    expect(state.bounds[1].bound).toBeLessThanOrEqual(best.values[1]);
    if (state.plan !== null && state.plan !== before)
      expect(check(problem, state.plan)).toEqual([]);
  }
  return state;
}

describe('refuting makespans', () => {
  it('decides small problems as trying every start does', () => {
    for (const seed of seeds(40_000, 150)) {
      const problem = drawPure(seed);
      const expected = enumerateBest(problem);
      const state = createDestructive(problem, 1, null).step(20_000);
      expect(state.status, `seed ${seed}`).toBe(expected === null ? 'infeasible' : 'optimal');
      expect(state.plan?.finishes[0], `seed ${seed}`).toBe(expected?.makespan);
      if (state.plan !== null) expect(check(problem, state.plan), `seed ${seed}`).toEqual([]);
    }
  });

  it('never goes above the least makespan of larger ones, and meets most', () => {
    let solvable = 0;
    let met = 0;
    for (const seed of seeds(41_000, 25)) {
      const problem = drawPure(seed, LARGER);
      const best = optimum(problem);
      if (best === null) continue;
      solvable++;
      const state = watch(createDestructive(problem, 1, null), problem, best, 1500);
      if (!state.done) continue;
      met++;
      expect(state.plan?.values, `seed ${seed}`).toEqual(best.values);
    }
    expect(met / solvable).toBeGreaterThan(0.7);
  });
});

describe('letting parts loose', () => {
  it('finds a best plan of nearly every small problem, and claims it only if it is proved', () => {
    let solvable = 0;
    let reached = 0;
    for (const seed of seeds(42_000, 30)) {
      const problem = drawPure(seed, LARGER);
      const best = optimum(problem);
      if (best === null) continue;
      solvable++;
      const state = watch(createNeighbourhood(problem, 1, null), problem, best, 200);
      if (state.plan?.values[1] === best.values[1]) reached++;
      if (state.done) expect(state.plan?.values, `seed ${seed}`).toEqual(best.values);
    }
    expect(solvable).toBeGreaterThan(15);
    expect(reached / solvable).toBeGreaterThan(0.9);
  });
});

describe('what others tell', () => {
  const makers = { createExact, createDestructive, createNeighbourhood };
  for (const [name, make] of Object.entries(makers)) {
    it(`${name}: an optimal plan ends as such, a bound that it meets ends the search`, () => {
      for (const seed of seeds(43_000, 10)) {
        const problem = drawPure(seed, LARGER);
        const best = optimum(problem);
        if (best === null) continue;
        for (const after of [0, 5, 30]) {
          const search = make(problem, 1, null);
          if (search.step(after).done) continue;
          search.receive(best, []);
          const told = watch(search, problem, best, 20);
          expect(told.plan?.values, `seed ${seed}`).toEqual(best.values);
          expect(told.status, `seed ${seed}`).not.toBe('infeasible');
          const bound = best.values[1];
          search.receive(
            null,
            [0, bound, 0, 0].map((b) => ({ bound: b, caps: [], proof: 'x' })),
          );
          expect(search.step(0).status, `seed ${seed}`).toBe('optimal');
        }
      }
    });

    it(`${name}: the same whatever the portions`, () => {
      for (const seed of seeds(44_000, 8)) {
        const problem = drawPure(seed, LARGER);
        const whole = make(problem, 7, null).step(90);
        const portions = make(problem, 7, null);
        for (let k = 0; k < 29; k++) portions.step(3);
        expect(portions.step(3), `seed ${seed}`).toEqual(whole);
      }
    });
  }
});

/** The first resource holds one activity at a time. */
const oneAtATime = (of: Problem): Problem => ({
  ...of,
  resources: of.resources.map((one, r) =>
    r === 0 ? { ...one, steps: [{ from: 0, capacity: 1 }] } : one,
  ),
  activities: of.activities.map((a) => ({
    ...a,
    modes: a.modes.map((m) => ({
      ...m,
      demands: m.demands.map((d) => (d.resource === 0 ? { ...d, amount: 1 } : d)),
    })),
  })),
});

describe('parts in which some activities keep their order', () => {
  it.each([
    ['with what is shared', (of: Problem) => of],
    ['with what is used by one at a time', oneAtATime],
  ])('have plans of the problem only, %s', (_, change) => {
    let solutions = 0;
    for (const seed of seeds(45_000, 20)) {
      const problem = change(drawPure(seed, LARGER));
      const plan = createExact(problem, 1, null).step(4000).plan;
      if (plan === null) continue;
      const model = toPureModel(problem);
      const starts = Int32Array.from(plan.placements, ({ start }) => start / model.unit);
      const target = makespanOf(model, starts);
      const root = closeRoot(model, target);
      if (root === null) throw new Error(`seed ${seed}: the plan is none`);
      const rng = random(seed);
      const loose = Uint8Array.from(starts, () => rng.below(2));
      const search = new PureSearch(new Parts(model, root).build(starts, loose, target), {});
      for (let k = 0; k < 50; k++) {
        const event = search.next();
        if (event === 'exhausted') break;
        if (event !== 'solution') continue;
        solutions++;
        expect(isFeasible(model, search.starts), `seed ${seed}`).toBe(true);
        if (!search.tighten(makespanOf(model, search.starts) - 1)) break;
      }
    }
    expect(solutions).toBeGreaterThan(5);
  });
});
