import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Plan, ProvedBound, RankValues, SearchState } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { create, solve } from '../solve.ts';
import { bruteForce } from './brute.ts';
import { any, make, planted, small, tiny, type Instance } from './instances.ts';
import { relabelled, shifted, type Same } from './laws.ts';

/**
 * What holds of the engine whatever the problem: the properties of the problem's statement,
 * three hundred problems each, a thousand with LONG_TESTS=1.
 */
const CASES = { numRuns: process.env['LONG_TESTS'] === '1' ? 1000 : 300 };
const LONG = { timeout: 300_000 };

const law = (of: fc.Arbitrary<Instance>, holds: (instance: Instance) => void): void => {
  fc.assert(fc.property(of, holds), CASES);
};

/** Whether a bound is above what a feasible plan that keeps its caps is worth. */
const refuted = ({ bound, caps }: ProvedBound, rank: number, values: RankValues): boolean =>
  caps.every((cap, r) => values[r] <= cap) && bound > values[rank];

const ranks = [0, 1, 2, 3] as const;

/** Few enough to be decided by the engine and by trying everything. */
const decidable = fc.oneof(
  { weight: 3, arbitrary: tiny.filter(({ size }) => size < 5) },
  {
    weight: 1,
    arbitrary: small.filter((instance) => make(instance).problem.activities.length <= 6),
  },
);

function expectUnrefuted(bounds: readonly ProvedBound[], values: RankValues): void {
  for (const rank of ranks)
    expect(refuted(bounds[rank], rank, values), `rank ${rank}: ${values.join(' ')}`).toBe(false);
}

/** States of a search after each of some steps. */
function states(problem: Problem, seed: number, steps: number, each: number): SearchState[] {
  const search = create(problem, seed, null);
  return Array.from({ length: steps }, () => search.step(each));
}

describe('the engine', LONG, () => {
  it('gives no plan that the checker refuses', () => {
    let plans = 0;
    law(any, (instance) => {
      const { problem } = make(instance);
      const { plan } = solve(problem, { seed: instance.seed, iterations: 24 });
      if (plan === null) return;
      plans++;
      expect(check(problem, plan)).toEqual([]);
    });
    expect(plans).toBeGreaterThan(0.7 * CASES.numRuns);
  });

  it('says infeasible of no problem that has a plan, and no bound is above a plan known', () => {
    law(fc.oneof(tiny, planted), (instance) => {
      const { problem, known } = make(instance);
      for (const { status, bounds, plan } of states(problem, instance.seed, 3, 8)) {
        expect(status).not.toBe('infeasible');
        if (known) expectUnrefuted(bounds, known.values);
        if (plan) expectUnrefuted(bounds, plan.values);
      }
    });
  });

  it('never gets worse, and no bound falls while its caps stay', () => {
    let improved = 0;
    law(any, (instance) => {
      const { problem } = make(instance);
      const { tolerances } = problem;
      let least = Infinity;
      let before: SearchState | null = null;
      for (const state of states(problem, instance.seed, 12, 3)) {
        const { plan, bounds } = state;
        if (before?.plan) expect(plan).not.toBeNull();
        if (before)
          bounds.forEach(({ bound, caps }, rank) => {
            const old = before?.bounds[rank];
            if (old && caps.join() === old.caps.join())
              expect(bound).toBeGreaterThanOrEqual(old.bound);
          });
        if (plan) {
          // What may be given up for later ranks is counted from the best there was.
          expect(plan.values[0]).toBeLessThanOrEqual(least + tolerances[0]);
          least = Math.min(least, plan.values[0]);
          if (before?.plan && before.plan !== plan) improved++;
        }
        before = state;
      }
    });
    expect(improved).toBeGreaterThan(0.1 * CASES.numRuns);
  });

  it('without tolerances goes from plan to plan that is better in the first rank that differs', () => {
    law(any, (instance) => {
      const problem: Problem = { ...make(instance).problem, tolerances: [0, 0, 0] };
      let before: Plan | null = null;
      for (const { plan } of states(problem, instance.seed, 8, 3)) {
        const old: Plan | null = before;
        before = plan;
        if (!plan || !old) continue;
        const first = ranks.find((rank) => plan.values[rank] !== old.values[rank]);
        if (first !== undefined) expect(plan.values[first]).toBeLessThan(old.values[first]);
      }
    });
  });

  it('gives the same for the same problem, seed and iterations, however it is stepped', () => {
    law(any, (instance) => {
      const { problem } = make(instance);
      const { seed } = instance;
      const options = { seed, iterations: 20 };
      expect(solve(problem, options)).toEqual(solve(structuredClone(problem), options));
      const whole = create(problem, seed, null).step(20);
      const split = create(problem, seed, null);
      for (const count of [1, 7, 0, 4]) split.step(count);
      expect(split.step(8)).toEqual(whole);
    });
  });

  it('proves what trying everything finds', () => {
    let proved = 0;
    law(decidable, (instance) => {
      const { problem } = make(instance);
      const { status, plan, bounds } = solve(problem, { seed: instance.seed, iterations: 200 });
      if (status !== 'optimal' && status !== 'infeasible') return;
      let best: ReturnType<typeof bruteForce>;
      try {
        best = bruteForce(problem, 6, 20_000);
      } catch (error) {
        if (error instanceof RangeError) return;
        throw error;
      }
      proved++;
      if (status === 'infeasible') expect(best).toBeNull();
      else {
        expect(bounds.map(({ bound }) => bound)).toEqual(best?.least);
        expect(plan?.values[3]).toBe(best?.least[3]);
      }
    });
    expect(proved).toBeGreaterThan(0.9 * CASES.numRuns);
  });
});

const sames: readonly (readonly [string, (problem: Problem, seed: number) => Same])[] = [
  ['shifting everything', (problem, seed) => shifted(problem, seed % 17)],
  ['relabelling activities and builders', relabelled],
];

describe.each(sames)('%s', LONG, (_, other) => {
  it('changes no verdict and no proved optimum', () => {
    let proved = 0;
    law(decidable, (instance) => {
      const { problem } = make(instance);
      const same = other(problem, instance.seed);
      const options = { seed: instance.seed, iterations: 120 };
      const one = solve(problem, options);
      const two = solve(same.problem, options);
      if (two.plan) expect(check(problem, same.back(two.plan))).toEqual([]);
      if (one.plan) expect(check(same.problem, same.forth(one.plan))).toEqual([]);
      if (one.status === 'infeasible') expect(two.plan).toBeNull();
      if (two.status === 'infeasible') expect(one.plan).toBeNull();
      if (one.status !== 'optimal' || two.status !== 'optimal' || !one.plan || !two.plan) return;
      proved++;
      // Each is no better than the other, carried over: within their tolerances both are best.
      expectUnrefuted(one.bounds, same.back(two.plan).values);
      expectUnrefuted(two.bounds, same.forth(one.plan).values);
      expect(two.bounds[0].bound).toBe(one.bounds[0].bound);
    });
    expect(proved).toBeGreaterThan(0.7 * CASES.numRuns);
  });
});
