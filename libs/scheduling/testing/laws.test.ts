import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import { validate } from '../model/validate.ts';
import { bruteForce } from './brute.ts';
import { range } from './draw.ts';
import { relabelled, shifted, type Same } from './laws.ts';
import { mutants, mutations } from './mutations/mutants.ts';
import { plantedProblem, tinyProblem } from './planted.ts';
import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import type { ViolationKind } from '../checker/violation.ts';

const laws: readonly (readonly [string, (problem: Problem, seed: number) => Same])[] = [
  ['shifting everything', (problem, seed) => shifted(problem, (seed * 37) % 500)],
  ['relabelling activities', relabelled],
];

const kindsOf = (problem: Problem, plan: Plan): ViolationKind[] =>
  [...new Set(check(problem, plan).map((violation) => violation.kind))].sort();

describe.each(laws)('%s', { timeout: 60_000 }, (_, law) => {
  it('gives a valid problem, keeps the plan right, and comes back', () => {
    for (const seed of range(30)) {
      const { problem, plan } = plantedProblem(seed, 4 + (seed % 37), { day: 130, days: 8 });
      const same = law(problem, seed);
      expect(validate(same.problem), `seed ${seed}`).toEqual([]);
      expect(check(same.problem, same.forth(plan)), `seed ${seed}`).toEqual([]);
      expect(same.back(same.forth(plan))).toEqual(plan);
    }
  });

  // Shifting recomputes the values and keeps times whole, so faults of form and values do not go over.
  const kinds = (Object.keys(mutations) as ViolationKind[]).filter(
    (kind) => !['form', 'values', 'branch'].includes(kind),
  );
  it.each(kinds)('keeps the verdict on faults of kind %s', (kind) => {
    const plans = range(20).map((seed) =>
      plantedProblem(seed, 4 + (seed % 20), { day: 130, days: 6 }),
    );
    const found = mutants(kind, plans, 20);
    expect(found).toHaveLength(20);
    found.forEach(({ after: { problem, plan } }, seed) => {
      const same = law(problem, seed);
      const other = kindsOf(same.problem, same.forth(plan));
      expect(other.filter((one) => one !== 'values')).toEqual(
        kindsOf(problem, plan).filter((one) => one !== 'values' && one !== 'form'),
      );
    });
  });

  it('keeps the optimum', () => {
    for (const seed of range(25)) {
      const { problem } = tinyProblem(seed, 2 + (seed % 4));
      const same = law(problem, seed % 9);
      const best = bruteForce(problem);
      const other = bruteForce(same.problem);
      if (!best || !other) throw new Error(`seed ${seed} has a plan, and none was found`);
      expect(other.lateness, `seed ${seed}`).toBe(best.lateness);
      expect(check(problem, same.back(other.plan))).toEqual([]);
      expect(same.forth(best.plan).values[0]).toBe(best.plan.values[0]);
      // Where every refit has work in both plans, the second rank moves along exactly.
      expect(other.finishes).toBe(same.forth(best.plan).values[1]);
    }
  });
});
