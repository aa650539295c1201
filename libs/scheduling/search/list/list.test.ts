import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { Distances } from '../../propagation/closure.ts';
import { closeRoot } from '../exact/layout.ts';
import { isFeasible, toPureModel, type PureModel } from '../exact/pure.ts';
import { drawPure, enumerateBest } from '../exact/testing/tiny.ts';
import { FirstPlans } from './firstPlan.ts';
import { mirrored, reflect } from './mirror.ts';
import { Profile } from './profile.ts';
import { generate } from './serial.ts';

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

describe('the mirror', () => {
  it('twice is the way it was; and plans made in it are plans', () => {
    let made = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const model = toPureModel(drawPure(seed));
      const distances = distancesOf(model);
      if (distances === null) continue;
      const { count } = model;
      const back = mirrored(model, distances);
      const again = mirrored(model, back);
      for (const i of [...Array(count).keys(), count + 1]) {
        for (const j of [...Array(count).keys(), count + 1]) {
          expect(again.at(i, j), `seed ${seed}`).toBe(distances.at(i, j));
        }
      }
      const late = generate(model, back, new Float64Array(count), 'later', 100);
      if (late === null) continue;
      made++;
      expect(isFeasible(model, reflect(model, late)), `seed ${seed}`).toBe(true);
    }
    expect(made).toBeGreaterThan(50);
  });
});

describe('the profile', () => {
  it('finds the earliest start that looking at every period finds', () => {
    for (let seed = 1; seed <= 100; seed++) {
      const rng = random(seed);
      const capacity = Int32Array.of(3, 2);
      const profile = new Profile(capacity);
      const use = Array.from({ length: 80 }, () => [0, 0]);
      for (let k = 0; k < 12; k++) {
        const demand = Int32Array.of(rng.below(4), rng.below(3));
        const duration = rng.below(5);
        const from = rng.below(15);
        const fits = (t: number): boolean => use[t].every((u, r) => u + demand[r] <= capacity[r]);
        let expected = from;
        while (!Array.from({ length: duration }, (_, d) => expected + d).every(fits)) expected++;
        expect(profile.earliest(from, duration, demand), `seed ${seed}`).toBe(expected);
        // Every fourth is taken away again.
        profile.change(expected, expected + duration, demand, 1);
        if (k % 4 === 3) profile.change(expected, expected + duration, demand, -1);
        else
          for (let t = expected; t < expected + duration; t++)
            use[t].forEach((_, r) => (use[t][r] += demand[r]));
      }
    }
  });
});
