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
  [...new Set(check(problem, plan).map((violation) => violation.kind))]
    .filter((kind) => kind !== 'values')
    .sort();

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
    (kind) => !['form', 'values', 'branch', 'mode'].includes(kind),
  );
  it.each(kinds)('keeps the verdict on faults of kind %s', (kind) => {
    const plans = range(20).map((seed) =>
      plantedProblem(seed, 4 + (seed % 20), { day: 130, days: 6 }),
    );
    // What lies before minute 0 breaks the horizon there and a release where that is later.
    const found = mutants(kind, plans, 40).filter(
      ({ after: { problem, plan } }) =>
        !plan.placements.some(
          ({ activity, start }) =>
            start < 0 && problem.activities[activity].fixed?.kind !== 'frozen',
        ),
    );
    expect(found.length).toBeGreaterThan(20);
    found.forEach(({ after: { problem, plan } }, seed) => {
      const same = law(problem, seed);
      expect(kindsOf(same.problem, same.forth(plan))).toEqual(kindsOf(problem, plan));
    });
  });

  it('keeps the optimum', () => {
    for (const seed of range(25)) {
      const { problem } = tinyProblem(seed, 2 + (seed % 4));
      const same = law(problem, seed % 9);
      const best = bruteForce(problem);
      const other = bruteForce(same.problem);
      if (!best || !other) throw new Error(`seed ${seed} has a plan, and none was found`);
      expect(check(problem, same.back(other.plan))).toEqual([]);
      expect(same.forth(best.plan).values.filter((_, rank) => rank !== 1)).toEqual(
        best.plan.values.filter((_, rank) => rank !== 1),
      );
      expect(other.least[0], `seed ${seed}`).toBe(best.least[0]);
      // A refit whose only work is optional may have none in one plan and some in the other.
      const sure = (refit: number): boolean =>
        problem.activities.some(
          (one, a) =>
            one.refit === refit &&
            one.fixed?.kind !== 'frozen' &&
            !problem.choices.some(({ branches }) =>
              branches.some(({ activities }) => activities.includes(a)),
            ),
        );
      if (!problem.refits.every(({ weight }, r) => weight === 0 || sure(r))) continue;
      const gained = same.forth(best.plan).values[1] - best.plan.values[1];
      expect(other.least).toEqual(
        best.least.map((value, rank) => (rank === 1 ? value + gained : value)),
      );
    }
  });
});
