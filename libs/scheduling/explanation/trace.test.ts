import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { solve } from '../solve.ts';
import { madeUpYard } from '../testing/made-up-yard.ts';
import { plantedProblem } from '../testing/planted.ts';
import { justify } from './justify.ts';
import { traces } from './testing/trace.ts';

/** Every placement is refused its minute, for what the checker says; the kinds of the reasons. */
function refused(of: Problem, plan: Plan, where: string): string[] {
  const published = new Set(of.published?.tasks.map((task) => task.activity));
  return traces(of, plan).flatMap(({ activity, reason, faults }) => {
    expect(faults, where).toEqual([]);
    if (reason === null) expect(published.has(activity), where).toBe(true);
    return reason === null ? [] : [reason.kind];
  });
}

describe('a minute earlier', () => {
  it('is refused by the checker for the binding reason, and for nothing once that is taken away', () => {
    const kinds = new Set<string>();
    for (let seed = 0; seed < 37; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 37));
      const where = `seed ${String(seed)}`;
      const left = justify(of, plan);
      expect(check(of, left), where).toEqual([]);
      left.values.forEach((value, rank) => {
        expect(value, where).toBeLessThanOrEqual(plan.values[rank]);
      });
      for (const kind of refused(of, left, where)) kinds.add(kind);
    }
    const usual = 'lag builder calendar release fixed horizon part hours forbidden dust slots';
    expect([...kinds]).toEqual(expect.arrayContaining(usual.split(' ')));
  });

  it('is refused wherever it was planned, in any plan: explanation and checker agree', () => {
    for (let seed = 100; seed < 120; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 37));
      for (const { faults } of traces(of, plan)) expect(faults, `seed ${String(seed)}`).toEqual([]);
    }
  });

  it('is refused in a plan of the engine', () => {
    const of = madeUpYard(4, 6);
    const { plan } = solve(of, { seed: 1, iterations: 40 });
    if (!plan) throw new Error('no plan');
    const left = justify(of, plan);
    expect(check(of, left)).toEqual([]);
    expect(refused(of, left, 'yard')).toHaveLength(left.placements.length);
  });
});
