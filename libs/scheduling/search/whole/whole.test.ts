import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import type { Plan, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { Literals, lowerOf, upperOf } from '../../propagation/literal.ts';
import { activity, builder, work } from '../../testing/make.ts';
import { bruteForce } from '../../testing/brute.ts';
import { plantedProblem, tinyProblem } from '../../testing/planted.ts';
import { smallProblem } from '../../testing/small/small.ts';
import { ActivityBranching } from '../learning/branching.ts';
import { guard } from '../learning/guard.ts';
import { LearningSearch } from '../learning/search.ts';
import { entered } from './enter.ts';
import { stockOf } from './model/ground.ts';
import { wholeOf } from './model/whole.ts';
import { diveOf } from './search/dive.ts';
import { hour } from './testing/hour.ts';
import { createWhole } from './whole.ts';

const MOST = 30_000;

const decide = (of: Problem): SearchState => createWhole(of, 1, null, null).step(MOST);

/** Null where there is no plan, else the least values of the four ranks. */
const leastOf = ({ status, bounds }: SearchState): number[] | null =>
  status === 'infeasible' ? null : bounds.map(({ bound }) => bound);

function expectSound(of: Problem, { plan, bounds, status }: SearchState, seed: number): void {
  if (plan === null) return;
  expect(check(of, plan), `seed ${seed}`).toEqual([]);
  expect(status, `seed ${seed}`).toBe('optimal');
  bounds.forEach(({ bound }, rank) => {
    expect(plan.values[rank], `seed ${seed}`).toBeGreaterThanOrEqual(bound);
    expect(plan.values[rank], `seed ${seed}`).toBeLessThanOrEqual(
      bound + (of.tolerances.at(rank) ?? 0),
    );
  });
}

/** A value for every variable of the problem's network in which work is as in its best plan. */
function solutionOf(of: Problem, { plan }: SearchState): Int32Array | null {
  const model = wholeOf(of);
  const dive = diveOf(model, { values: null });
  const branching = new ActivityBranching(model.network, { dive, quiet: [], phase: 'followed' });
  const search = new LearningSearch(model.network, branching, { objective: null });
  const literal = new Literals();
  const require = (b: number, v: number): boolean => {
    literal.clear();
    literal.add(b, v);
    return search.require(literal);
  };
  for (const { activity, start, finish } of plan?.placements ?? []) {
    const work = model.works[activity];
    const kept =
      require(lowerOf(work.start), start) &&
      require(upperOf(work.start), -start) &&
      require(lowerOf(work.finish), finish) &&
      require(upperOf(work.finish), -finish);
    if (!kept) return null;
  }
  for (const [r, x] of model.ranks.entries())
    if (x === null || plan === null || !require(upperOf(x), -plan.values[r])) return null;
  return search.run(MOST) === 'solution' ? search.values.slice() : null;
}

describe('the whole problem in the learning core', () => {
  it('agrees with brute force on tiny problems, in all four ranks', { timeout: 120_000 }, () => {
    let compared = 0;
    for (let seed = 1; seed <= 160; seed += 1) {
      const { problem: of } = tinyProblem(seed, 2 + (seed % 5));
      const state = decide(of);
      expect(state.done, `seed ${seed}`).toBe(true);
      expectSound(of, state, seed);
      try {
        const optimum = bruteForce(of, 6, 6_000);
        expect(leastOf(state), `seed ${seed}`).toEqual(optimum && [...optimum.least]);
        compared += 1;
      } catch (error) {
        // Too large to be tried out: no comparison, and counted below.
        if (!(error instanceof RangeError)) throw error;
      }
    }
    expect(compared).toBeGreaterThan(130);
  });

  it('decides what it once decided wrongly', () => {
    // Frozen work that held more before minute 0 than there is of a resource.
    const held = tinyProblem(382182, 4).problem;
    expect(leastOf(decide(held))).toEqual([...(bruteForce(held, 6, 20_000)?.least ?? [])]);
    // Ways with and without overtime, whose shifts differ; later ranks that still could be better.
    for (const [seed, size] of [
      [103895, 7],
      [189702, 4],
    ] as const) {
      const { problem: of, plan } = plantedProblem(seed, size, { day: 40, days: 4 });
      const state = decide(of);
      expectSound(of, state, seed);
      state.bounds.forEach(({ bound, caps }, rank) => {
        const within = caps.every((cap, r) => plan.values[r] <= cap);
        if (within) expect(bound, `seed ${seed}`).toBeLessThanOrEqual(plan.values[rank]);
      });
    }
  });

  it('agrees with brute force where there may be no plan', { timeout: 120_000 }, () => {
    let feasible = 0;
    let infeasible = 0;
    for (let seed = 1; seed <= 120; seed += 1) {
      const of = smallProblem(seed);
      if (seed > 40 && of.activities.length > 6) continue;
      const state = decide(of);
      expect(state.done, `seed ${seed}`).toBe(true);
      expectSound(of, state, seed);
      try {
        const optimum = bruteForce(of, 6, 4_000);
        expect(leastOf(state), `seed ${seed}`).toEqual(optimum && [...optimum.least]);
        if (optimum === null) infeasible += 1;
        else feasible += 1;
      } catch (error) {
        if (!(error instanceof RangeError)) throw error;
      }
    }
    expect(feasible).toBeGreaterThan(20);
    expect(infeasible).toBeGreaterThan(5);
  });

  it('finds the plans that were planted, or better ones', { timeout: 60_000 }, () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 6 + (seed % 3), { day: 20, days: 3 });
      const state = decide(of);
      expect(state.status, `seed ${seed}`).toBe('optimal');
      expectSound(of, state, seed);
      const [{ bound: first, caps: none }] = state.bounds;
      expect(none).toEqual([]);
      expect(first, `seed ${seed}`).toBeLessThanOrEqual(plan.values[0]);
      state.bounds.forEach(({ bound, caps }, rank) => {
        const within = caps.every((cap, r) => plan.values[r] <= cap);
        if (within) expect(bound, `seed ${seed}`).toBeLessThanOrEqual(plan.values[rank]);
      });
    }
  });

  it('takes the same steps whatever their size, and its bounds never fall', () => {
    for (const seed of [3, 8, 14, 19, 25]) {
      const of = smallProblem(seed);
      const whole = decide(of);
      const search = createWhole(of, 1, null, null);
      let state = search.step(0);
      let before = state;
      while (!state.done) {
        state = search.step(1);
        for (const [rank, { bound }] of state.bounds.entries())
          expect(bound).toBeGreaterThanOrEqual(before.bounds[rank].bound);
        before = state;
      }
      expect(state).toEqual(whole);
    }
  });

  it('learns no clause that cuts off a best plan', { timeout: 60_000 }, () => {
    let clauses = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const of = smallProblem(seed);
      const state = decide(of);
      const known = state.plan === null ? null : solutionOf(of, state);
      if (known === null || state.plan === null) continue;
      const best = state.plan.values;
      let last: SearchState | null = null;
      // Once a plan as good is found, only better ones are looked for.
      const isWithin = (): boolean => last?.plan?.values.some((v, r) => v > best[r]) ?? true;
      const observe = guard(known, isWithin);
      const observer: typeof observe = (clause) => {
        if (isWithin()) clauses += 1;
        observe(clause);
      };
      const search = createWhole(of, 1, null, null, { observer });
      do last = search.step(1);
      while (!last.done);
      expect(last.plan?.values, `seed ${seed}`).toEqual(best);
    }
    expect(clauses).toBeGreaterThan(100);
  });

  it('takes a given plan only where every rule allows it', { timeout: 60_000 }, () => {
    let taken = 0;
    let refused = 0;
    for (let seed = 1; seed <= 12; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 6);
      const own = entered(of, plan, stockOf(of));
      expect(own, `seed ${seed}`).not.toBeNull();
      const search = createWhole(of, 1, plan, null);
      let begun: Plan | null = null;
      for (let k = 0; begun === null && k < 100; k += 1) begun = search.step(1).plan;
      expect(begun, `seed ${seed}`).toEqual(own);
      taken += 1;
      const [first, ...others] = plan.placements;
      const shifted = {
        ...first,
        start: first.start + 1,
        finish: first.finish + 1,
        segments: first.segments.map(({ start, end }) => ({ start: start + 1, end: end + 1 })),
      };
      const moved = { ...plan, placements: [shifted, ...others] };
      if (check(of, moved).every(({ kind }) => kind === 'values')) continue;
      expect(entered(of, moved, stockOf(of)), `seed ${seed}`).toBeNull();
      refused += 1;
    }
    expect(taken).toBe(12);
    expect(refused).toBeGreaterThan(2);
  });

  it('goes on from a better plan and from bounds that others found', () => {
    const of = smallProblem(5);
    const alone = decide(of);
    const search = createWhole(of, 1, null, null);
    search.receive(alone.plan, alone.bounds);
    const state = search.step(200);
    expect(state.status).toBe(alone.status);
    expect(state.plan?.values).toEqual(alone.plan?.values);
    expect(search.counts().conflicts).toBeLessThan(5);
  });

  it('is not held up by plans that it is given again', () => {
    let conflicts = 0;
    for (const seed of [3, 8, 14, 19, 25]) {
      const { problem: of, plan } = plantedProblem(seed, 8);
      const alone = createWhole(of, 1, plan, null);
      const told = createWhole(of, 1, plan, null);
      for (let k = 0; k < 60; k += 1) {
        const state = alone.step(5);
        const other = told.step(5);
        expect(other, `seed ${seed}`).toEqual(state);
        if (state.plan === null) continue;
        told.receive(state.plan, []);
        told.receive(plan, []);
      }
      expect(told.counts(), `seed ${seed}`).toEqual(alone.counts());
      conflicts += alone.counts().conflicts;
    }
    expect(conflicts).toBeGreaterThan(100);
  });

  it('keeps its plans and its proofs where money is too large a number', () => {
    const of = hour({
      builders: [builder('Ada', { cost: 20_000_000 })],
      activities: [activity('A', [work(20)])],
    });
    const { status, plan, bounds, done } = decide(of);
    expect(status).toBe('feasible');
    expect(done).toBe(true);
    expect(plan && check(of, plan)).toEqual([]);
    expect(bounds.map(({ bound }) => bound)).toEqual([0, 20, 0, 0]);
  });
});
