import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import { proveRoot } from '../../bounds/root.ts';
import type { Plan } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { madeUpYard } from '../../testing/made-up-yard.ts';
import { plantedProblem } from '../../testing/planted.ts';
import { compile } from '../crew/compiled/compiled.ts';
import { searchFor } from '../crew/testing/best.ts';
import { createTurns, hasTurns, type TurnsSearch } from './turns.ts';

function turnsFor(of: Problem, warm: Plan | null = null): TurnsSearch {
  const compiled = compile(of);
  return createTurns(of, 1, warm, compiled, proveRoot(compiled));
}

describe('refits in turn', () => {
  it('give plans that the checker accepts', () => {
    let found = 0;
    for (let seed = 0; seed < 36; seed += 1) {
      const { problem: of } = plantedProblem(seed, 12 + (seed % 20));
      if (!hasTurns(of)) continue;
      // Two parts of the work, and then some of the whole.
      const { plan, status } = turnsFor(of).step(110 * of.activities.length);
      if (plan === null) continue;
      expect(status).toBe('feasible');
      expect(check(of, plan), `seed ${String(seed)}`).toEqual([]);
      found += 1;
    }
    expect(found).toBeGreaterThan(3);
  });

  it('come to the same in one step and in many, and better a plan that a few decodes gave', () => {
    const of = madeUpYard(3, 5);
    const warm = searchFor(of, 1).step(30).plan;
    if (warm === null) throw new Error('no plan');
    const one = turnsFor(of, warm).step(6000);
    const many = turnsFor(of, warm);
    for (let k = 0; k < 6000; k += 1) many.step(1);
    expect(many.step(0)).toEqual(one);
    expect(one.plan && check(of, one.plan)).toEqual([]);
    expect(one.plan?.values[1]).toBeLessThan(warm.values[1]);
  });

  it('have nothing to do for two refits, or once the first two ranks are proved', () => {
    const of = madeUpYard(3, 5);
    const two = { ...of, refits: of.refits.map((one, r) => (r > 1 ? { ...one, weight: 0 } : one)) };
    expect(turnsFor(two).step(10)).toMatchObject({ done: true, iterations: 0 });
    const plan = searchFor(of, 1).step(30).plan;
    if (plan === null) throw new Error('no plan');
    const search = turnsFor(of);
    search.receive(
      plan,
      plan.values.map((bound) => ({ bound, caps: [], proof: 'search' })),
    );
    expect(search.step(10)).toMatchObject({ done: true, plan, iterations: 0 });
  });
});
