import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import type { Constraint } from '../../model/constraint.ts';
import type { Problem } from '../../model/problem.ts';
import { validate } from '../../model/validate.ts';
import { create } from '../../solve.ts';
import { explainInfeasible } from '../infeasible.ts';
import { nameOf, relevant } from './subject.ts';
import { spoiltYard } from './testing/yard.ts';
import { part } from './verdict.ts';

/** Whether the activities that some constraints are about have a plan that keeps to them, shown by one. */
function canBeMet(of: Problem, constraints: readonly Constraint[]): boolean {
  const rest = part(of, constraints, relevant(of, constraints));
  const { plan } = create(rest, 1, null).step(400);
  return plan !== null && check(rest, plan).length === 0;
}

describe('explanations on whole yards', () => {
  it.each([0, 1, 2, 3, 4])(
    'are a few reasons, none of which can be left out, of 117 tasks: %i',
    { timeout: 60_000 },
    (seed) => {
      const { name, problem, cause } = spoiltYard(seed, 13);
      expect(validate(problem), name).toEqual([]);
      const { irreducible, constraints, activities } = explainInfeasible(problem);
      expect(irreducible, name).toBe(true);
      expect(constraints, name).toEqual(expect.arrayContaining([...cause]));
      expect(activities.length, name).toBeLessThanOrEqual(8);
      for (const one of constraints) {
        const rest = constraints.filter((other) => other !== one);
        expect(canBeMet(problem, rest), `${name}, without ${nameOf(one)}`).toBe(true);
      }
    },
  );
});
