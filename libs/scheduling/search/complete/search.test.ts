import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { check } from '../../checker/check.ts';
import type { SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { bruteForce } from '../../testing/brute.ts';
import { plantedProblem, tinyProblem } from '../../testing/planted.ts';
import { smallProblem } from '../../testing/small/small.ts';
import { planOf } from './answer.ts';
import { candidatesOf } from './candidates.ts';
import { fullDomains, settleOn } from './domains.ts';
import { NO_LIMITS, roomOf } from './room.ts';
import { completeSearch } from './search.ts';
import { branchings } from './world.ts';

const NODES = 300_000;

const decide = (of: Problem): SearchState => completeSearch(of, null).step(NODES);

/** Null where there is no plan, else the least values of the four ranks. */
const leastOf = ({ status, bounds }: SearchState): number[] | null =>
  status === 'infeasible' ? null : bounds.map(({ bound }) => bound);

/** The checker's word on the plan, and that each rank is within its least value and tolerance. */
function expectSound(of: Problem, { plan, bounds, status }: SearchState, seed: number): void {
  if (plan === null) return;
  expect(check(of, plan), `seed ${seed}`).toEqual([]);
  if (status !== 'optimal') return;
  bounds.forEach(({ bound }, rank) => {
    expect(plan.values[rank], `seed ${seed}`).toBeGreaterThanOrEqual(bound);
    expect(plan.values[rank], `seed ${seed}`).toBeLessThanOrEqual(
      bound + (of.tolerances.at(rank) ?? 0),
    );
  });
}

describe('the complete search', () => {
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

  it('agrees with brute force where there may be no plan', { timeout: 120_000 }, () => {
    let feasible = 0;
    let infeasible = 0;
    for (let seed = 1; seed <= 120; seed += 1) {
      const of = smallProblem(seed);
      if (of.activities.length > 6) continue;
      try {
        const optimum = bruteForce(of, 6, 4_000);
        const state = decide(of);
        expectSound(of, state, seed);
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
      expect(state.status, `seed ${seed}`).not.toBe('infeasible');
      expectSound(of, state, seed);
      for (const { bound, caps } of state.bounds.slice(0, 1)) {
        expect(caps).toEqual([]);
        expect(bound, `seed ${seed}`).toBeLessThanOrEqual(plan.values[0]);
      }
      state.bounds.forEach(({ bound, caps }, rank) => {
        const within = caps.every((cap, r) => plan.values[r] <= cap);
        if (within) expect(bound, `seed ${seed}`).toBeLessThanOrEqual(plan.values[rank]);
      });
      const warm = completeSearch(of, plan).step(1 + branchings(of).length);
      expect(warm.plan, `seed ${seed}`).not.toBeNull();
    }
  });

  it('takes the same steps whatever their size, and its bounds never fall', () => {
    for (const seed of [3, 8, 14, 19, 25]) {
      const of = smallProblem(seed);
      const whole = decide(of);
      const search = completeSearch(of, null);
      let state = search.step(0);
      let before = state;
      while (!state.done) {
        state = search.step(1);
        state.bounds.forEach(({ bound }, rank) => {
          expect(bound).toBeGreaterThanOrEqual(before.bounds[rank].bound);
        });
        before = state;
      }
      expect(state).toEqual(whole);
    }
  });
});

describe('the rules', () => {
  /** Places are drawn so that many pairs go together, or the checker would refuse nearly all. */
  it('say what the checker says of any placements', { timeout: 60_000 }, () => {
    let allowed = 0;
    let refused = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const of = smallProblem(seed);
      const rng = random(seed);
      const all = of.activities.map((_, a) => candidatesOf(of, a));
      for (const branches of branchings(of)) {
        const { world, row, rules, propagation, values } = roomOf(of, all, branches);
        if (world.domains.some(({ length }) => length === 0)) continue;
        for (let turn = 0; turn < 12; turn += 1) {
          const loose = rng.below(3) === 0;
          const picked: number[] = [];
          for (const domain of world.domains) {
            const k = picked.length;
            const any = [...domain.keys()];
            const fitting = any.filter((c) => picked.every((own, j) => row(j, own, k)[c] === 1));
            const pool = fitting.length === 0 || (loose && rng.below(4) === 0) ? any : fitting;
            picked.push(pool[rng.below(pool.length)]);
          }
          const domains = fullDomains(world);
          picked.forEach((c, k) => {
            settleOn(world, domains, k, c);
          });
          const goTogether = picked.every((c, k) =>
            picked.every((other, j) => j === k || row(k, c, j)[other] === 1),
          );
          const fits = goTogether && rules.fits(domains) && propagation.settle(domains, NO_LIMITS);
          const found = check(of, planOf(world, domains, values.least(domains)));
          expect(found.length === 0, `seed ${seed}: ${found.at(0)?.message ?? 'allowed'}`).toBe(
            fits,
          );
          if (fits) allowed += 1;
          else refused += 1;
        }
      }
    }
    expect(allowed).toBeGreaterThan(300);
    expect(refused).toBeGreaterThan(300);
  });
});
