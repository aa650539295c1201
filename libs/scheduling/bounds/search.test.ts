import { describe, expect, it } from 'vitest';
import { compile } from '../search/crew/compiled/compiled.ts';
import { bruteForce } from '../testing/brute.ts';
import { madeUpYard } from '../testing/made-up-yard.ts';
import { plantedProblem, tinyProblem } from '../testing/planted.ts';
import { proveRoot } from './root.ts';
import { createBounds } from './search.ts';

describe('bounds step by step', () => {
  it('never exceed the optimum of tiny problems', () => {
    let proved = 0;
    for (let seed = 0; seed < 60; seed += 1) {
      const { problem: of } = tinyProblem(seed, 2 + (seed % 5));
      const best = bruteForce(of);
      const { bounds, status } = createBounds(of, 1, null).step(400);
      if (best === null) continue;
      expect(status, `seed ${String(seed)}`).toBe('unknown');
      for (const rank of [0, 1])
        expect(bounds[rank].bound, `seed ${String(seed)}`).toBeLessThanOrEqual(best.least[rank]);
      if (best.least[1] > 0 && bounds[1].bound === best.least[1]) proved += 1;
    }
    expect(proved).toBeGreaterThan(10);
  });

  it('never exceed a planted plan, never fall, and are never below the root', () => {
    for (let seed = 0; seed < 30; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 6 + (seed % 30));
      const search = createBounds(of, 1, null);
      let last = [0, 0];
      for (let k = 0; k < 4; k += 1) {
        const { bounds } = search.step(80);
        const now = [bounds[0].bound, bounds[1].bound];
        for (const rank of [0, 1]) {
          expect(now[rank], `seed ${String(seed)}`).toBeLessThanOrEqual(plan.values[rank]);
          expect(now[rank], `seed ${String(seed)}`).toBeGreaterThanOrEqual(last[rank]);
        }
        last = now;
      }
    }
  });

  it('are the same in one step and in many, and better than crew hours on a made-up yard', () => {
    const of = madeUpYard(3, 14);
    const one = createBounds(of, 1, null).step(120);
    const search = createBounds(of, 1, null);
    for (let k = 0; k < 120; k += 1) search.step(1);
    expect(search.step(0)).toEqual(one);
    expect(one.bounds[1].bound).toBeGreaterThan(proveRoot(compile(of)).bounds[1].bound);
  });
});
