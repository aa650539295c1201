import { describe, expect, it } from 'vitest';
import { workedExample } from './testing/worked-example.ts';
import { check } from './checker/check.ts';
import type { SearchState } from './model/plan.ts';
import { madeUpYard } from './testing/made-up-yard.ts';
import { create, solve } from './solve.ts';
import { bruteForce } from './testing/brute.ts';
import { relabelled, shifted } from './testing/laws.ts';
import { activity, builder, lag, problem, work } from './testing/make.ts';
import { plantedProblem, tinyProblem } from './testing/planted.ts';

describe('solve', () => {
  it('agrees with brute force on tiny problems, in every rank', () => {
    const undecided: number[] = [];
    for (let seed = 0; seed < 60; seed += 1) {
      const { problem: of } = tinyProblem(seed, 2 + (seed % 5));
      const best = bruteForce(of);
      const { plan, status, bounds } = solve(of, { seed: 1, iterations: 20_000 });
      if (!best || !plan) throw new Error(`seed ${String(seed)}`);
      expect(check(of, plan)).toEqual([]);
      if (status !== 'optimal') undecided.push(seed);
      // Within the tolerances several plans may be best; each rank's least value is one.
      best.least.forEach((least, rank) => {
        const { bound, proof } = bounds[rank];
        if (status === 'optimal') expect(bound, `seed ${String(seed)}, ${proof}`).toBe(least);
        expect(plan.values[rank]).toBeLessThanOrEqual(least + (of.tolerances[rank] ?? 0));
      });
    }
    expect(undecided).toEqual([]);
  });

  it('proves the same optimum in other words', () => {
    let proved = 0;
    for (let seed = 0; seed < 30; seed += 1) {
      const { problem: of } = tinyProblem(seed, 2 + (seed % 4));
      const first = solve(of, { seed: 1, iterations: 600 });
      const second = solve(relabelled(of, 3).problem, { seed: 1, iterations: 600 });
      const moved = shifted(of, 11);
      const third = solve(moved.problem, { seed: 1, iterations: 600 });
      if (first.status !== 'optimal' || !first.plan) continue;
      proved += 1;
      if (second.status === 'optimal') expect(second.plan?.values).toEqual(first.plan.values);
      if (third.status === 'optimal')
        expect(third.plan?.values).toEqual(moved.forth(first.plan).values);
    }
    expect(proved).toBeGreaterThan(15);
  });

  it('is optimal on the worked example, by the exact search', () => {
    const { status, plan, bounds, chains, floats } = solve(workedExample(), {
      seed: 1,
      iterations: 2000,
    });
    expect([status, plan?.finishes, bounds[1].proof]).toEqual(['optimal', [44], 'search']);
    expect(chains[0].links.length).toBe(8);
    expect(floats.filter((f) => f === 0).length).toBe(8);
  });

  it('says infeasible and why, or that nothing was found', () => {
    const none = solve(problem({ activities: [activity('long', [work(500)])] }), {
      seed: 1,
      iterations: 10,
    });
    expect(none).toMatchObject({ status: 'infeasible', plan: null, bounds: [] });
    expect(none.infeasibility?.activities).toEqual([0]);
    // Ten hours of work for eight hours of one builder before the horizon: the root does not see it.
    const crowded = problem({
      horizon: 1000,
      builders: [builder('Ada')],
      activities: Array.from({ length: 6 }, (_, a) =>
        activity(`a${String(a)}`, [work(100)], { refit: null }),
      ),
    });
    expect(solve(crowded, { seed: 1, iterations: 2 })).toMatchObject({
      status: 'unknown',
      plan: null,
      infeasibility: null,
    });
    const proved = solve(crowded, { seed: 1, iterations: 500 });
    expect(proved).toMatchObject({ status: 'infeasible', plan: null });
    expect(proved.infeasibility?.constraints.map(({ kind }) => kind)).toContain('builder');
  });

  it('trades lateness only within the tolerance', () => {
    // One builder: the light refit is due first; finishing the heavy one first costs 60 late minutes.
    const of = problem({
      builders: [builder('Ada')],
      activities: [
        activity('light', [work(60)], { refit: 0 }),
        activity('heavy', [work(60)], { refit: 1 }),
      ],
      refits: [
        { id: 'light', release: 0, due: 540, handovers: [], weight: 1, source: 'light' },
        { id: 'heavy', release: 0, due: null, handovers: [], weight: 5, source: 'heavy' },
      ],
    });
    expect(solve(of, { seed: 1, iterations: 300 }).plan?.values).toEqual([0, 540 + 5 * 600, 0, 0]);
    expect(
      solve({ ...of, tolerances: [60, 0, 0] }, { seed: 1, iterations: 300 }).plan?.values,
    ).toEqual([60, 600 + 5 * 540, 0, 0]);
  });

  it('takes either branch of a choice, whichever ends earlier', () => {
    const of = problem({
      activities: [
        activity('a', [work(60)]),
        activity('key', [work(90)]),
        activity('b', [work(60)]),
      ],
      lags: [lag(0, 2, 200), lag(0, 1, 0), lag(1, 2, 0)],
      choices: [
        {
          id: 'bond',
          source: 'bond',
          branches: [
            { id: 'bond', activities: [], lags: [0] },
            { id: 'key', activities: [1], lags: [1, 2] },
          ],
        },
      ],
    });
    const { plan, status } = solve(of, { seed: 1, iterations: 200 });
    expect([status, plan?.branches, plan?.finishes]).toEqual(['optimal', [1], [690]]);
  });

  it('starts from a plan it is given, and is no worse for it', () => {
    const of = madeUpYard(6, 8);
    const first = solve(of, { seed: 1, iterations: 400 });
    const again = solve(of, { seed: 2, iterations: 1, warmStart: first.plan });
    expect(again.plan?.values).toEqual(first.plan?.values);
  });

  it('shows progress, stops when told, and repeats itself exactly', () => {
    const of = madeUpYard(7, 6);
    const states: SearchState[] = [];
    const stopped = solve(of, {
      seed: 3,
      shouldStop: () => states.length >= 20,
      onProgress: (s) => states.push(s),
    });
    expect(states.length).toBe(20);
    expect(stopped.iterations).toBe(states[19].iterations);
    for (let k = 1; k < states.length; k += 1) {
      for (const rank of [0, 1])
        expect(states[k].bounds[rank].bound).toBeGreaterThanOrEqual(
          states[k - 1].bounds[rank].bound,
        );
    }
    const counted = solve(of, { seed: 3, iterations: stopped.iterations });
    expect(counted).toEqual(stopped);
    // The search's own plan, before everything in it is moved as early as it goes.
    const { plan } = create(of, 3, null).step(stopped.iterations);
    expect(plan).toEqual(states[19].plan);
    expect(stopped.plan?.values[1]).toBeLessThanOrEqual(plan?.values[1] ?? 0);
    expect(counted.foundAt).toBeLessThanOrEqual(counted.iterations);
  });

  it('bounds, gaps and explains planted problems of many sizes', () => {
    for (const size of [4, 9, 16, 25, 40]) {
      const { problem: of, plan: planted } = plantedProblem(11, size);
      const { plan, bounds, floats, chains } = solve(of, { seed: 1, iterations: 600 });
      if (!plan) throw new Error(`size ${String(size)}`);
      expect(check(of, plan)).toEqual([]);
      bounds.forEach(({ bound, caps, gap, distance }, rank) => {
        if (caps.every((cap, r) => planted.values[r] <= cap))
          expect(bound).toBeLessThanOrEqual(planted.values[rank]);
        expect(distance).toBe(Math.max(0, plan.values[rank] - bound));
        expect(gap === 0).toBe(distance === 0);
      });
      expect(floats.length).toBe(of.activities.length);
      expect(chains.length).toBe(of.refits.length);
    }
  });
});
