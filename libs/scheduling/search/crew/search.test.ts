import { describe, expect, it } from 'vitest';
import { proveRoot } from '../../bounds/root.ts';
import { check } from '../../checker/check.ts';
import type { Problem } from '../../model/problem.ts';
import { activity, lag, problem, work } from '../../testing/make.ts';
import { plantedProblem } from '../../testing/planted.ts';
import { compile } from './compiled.ts';
import { madeUpYard } from '../../testing/made-up-yard.ts';
import { crewSearch, type CrewSearch } from './search.ts';

function searchFor(of: Problem, seed: number): CrewSearch {
  const compiled = compile(of);
  const { analysis, bounds } = proveRoot(compiled);
  return crewSearch(of, seed, null, { compiled, windows: analysis.domains, bounds });
}

describe('crew search', () => {
  it('finds a plan that the checker accepts for nearly every planted problem', () => {
    const unsolved: number[] = [];
    for (let seed = 0; seed < 60; seed += 1) {
      const { problem: of } = plantedProblem(seed, 4 + (seed % 37));
      const search = searchFor(of, 1);
      let state = search.step(20);
      while (state.plan === null && state.iterations < 1000) state = search.step(20);
      if (state.plan === null) unsolved.push(seed);
      else expect(check(of, state.plan), `seed ${String(seed)}`).toEqual([]);
    }
    // Half of a planted problem's constraints are met exactly; 2 of 60 were open when this was written.
    expect(unsolved.length, unsolved.join()).toBeLessThanOrEqual(3);
  });

  it('plans 120 activities of a made-up yard and never gets worse', () => {
    const of = madeUpYard(3, 14);
    expect(of.activities.length).toBe(126);
    const search = searchFor(of, 1);
    let best = search.step(60).plan;
    expect(best).not.toBeNull();
    const first = best;
    for (let k = 0; k < 12; k += 1) {
      const { plan } = search.step(50);
      if (!plan || !best) throw new Error('no plan');
      expect(check(of, plan)).toEqual([]);
      const [late, finishes] = plan.values;
      expect(late < best.values[0] || (late === best.values[0] && finishes <= best.values[1])).toBe(
        true,
      );
      best = plan;
    }
    if (!first || !best) throw new Error('no plan');
    expect(best.values[0] + best.values[1]).toBeLessThan(first.values[0] + first.values[1]);
  });

  it('gives the same plan for the same seed and iterations, in one step or many', () => {
    const of = madeUpYard(5, 5);
    const whole = searchFor(of, 7).step(400);
    const search = searchFor(of, 7);
    let state = search.step(0);
    for (const n of [1, 19, 80, 300]) state = search.step(n);
    expect(state.plan).toEqual(whole.plan);
    expect(state.foundAt).toBe(whole.foundAt);
    expect(searchFor(of, 8).step(400).plan).not.toEqual(whole.plan);
  });

  it('raises the opener of a window that its follow-up cannot meet the same day', () => {
    // The coat bonds for 300 minutes; the second one takes 200 and nobody is free between 700 and 960.
    const of = problem({
      horizon: 2880,
      activities: [
        activity('coat', [work(60)]),
        activity('second', [work(200)]),
        activity('meeting', [work(260)], {
          fixed: { kind: 'set', start: 700, finish: null, builders: [0] },
        }),
        activity('away', [work(260)], {
          fixed: { kind: 'set', start: 700, finish: null, builders: [1] },
        }),
        activity('early', [work(60)], { release: 620 }),
      ],
      lags: [lag(0, 1, 60), lag(0, 1, 300, { bound: 'close' }), lag(4, 1, 0)],
    });
    const { plan } = searchFor(of, 1).step(50);
    if (!plan) throw new Error('no plan');
    expect(check(of, plan)).toEqual([]);
    const at = (a: number): number => plan.placements[a].start;
    expect(at(1)).toBeGreaterThanOrEqual(1920);
    expect(at(1) - plan.placements[0].finish).toBeLessThanOrEqual(300);
  });
});
