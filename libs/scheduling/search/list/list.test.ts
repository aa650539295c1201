import { describe, expect, it } from 'vitest';
import type { Distances } from '../../propagation/closure.ts';
import { closeRoot } from '../exact/layout.ts';
import { isFeasible, toPureModel, type PureModel } from '../exact/pure.ts';
import { drawPure, enumerateBest } from '../exact/testing/tiny.ts';
import { FirstPlans } from './firstPlan.ts';
import { toLagged } from './to-lagged.ts';
import { NO_PLAN } from './scheme.ts';

/** Root distances, null where they show that there is no plan. */
const distancesOf = (model: PureModel): Distances | null =>
  closeRoot(model, model.horizon)?.distances ?? null;

describe('first plans', () => {
  it('are feasible, and there is one nearly wherever trying every start finds one', () => {
    let solvable = 0;
    let found = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const problem = drawPure(seed);
      const model = toPureModel(problem);
      const distances = distancesOf(model);
      if (enumerateBest(problem) === null || distances === null) continue;
      solvable++;
      const plans = new FirstPlans(model, distances, 1);
      const all = Array.from({ length: 20 }, () => plans.next()).filter(
        (starts) => starts !== null,
      );
      for (const starts of all) expect(isFeasible(model, starts), `seed ${seed}`).toBe(true);
      if (all.length > 0) found++;
    }
    expect(solvable).toBeGreaterThan(50);
    expect(found / solvable).toBeGreaterThan(0.95);
  });
});

describe('generation with lags', () => {
  it('makes plans in both directions of time', () => {
    const made = [0, 0];
    for (let seed = 1; seed <= 150; seed++) {
      const model = toPureModel(drawPure(seed));
      const distances = distancesOf(model);
      if (distances === null) continue;
      const scheme = toLagged(model, distances);
      const finish = new Int32Array(model.count);
      for (const direction of [0, 1] as const) {
        const makespan = scheme.pass().run(scheme.order[direction], direction, finish);
        if (makespan === NO_PLAN) continue;
        made[direction]++;
        const starts = finish.map((done, i) =>
          direction === 0 ? done - model.duration[i] : makespan - done,
        );
        expect(isFeasible(model, starts), `seed ${seed}, direction ${direction}`).toBe(true);
      }
    }
    expect(made[0]).toBeGreaterThan(50);
    expect(made[1]).toBeGreaterThan(50);
  });
});
