import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { constraintsOf, nameOf } from '#scheduling/explanation/conflict/subject.ts';
import type { Constraint } from '#scheduling/model/constraint.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { validate } from '#scheduling/model/validate.ts';
import { without } from '#scheduling/model/without.ts';
import { solve } from '#scheduling/solve.ts';
import { compile } from '../../compile/compile.ts';
import { contradiction, contradictionNames } from '../../testing/contradictions.ts';
import { yardFaults } from '../../yard/check/check.ts';
import { valueAt } from '../../yard/path.ts';
import { contradictionOf, whyNot } from './infeasible.ts';

const solved = (problem: Problem): SolveResult => solve(problem, { seed: 1, iterations: 3000 });

/** The problem with these constraints alone. */
function kept(problem: Problem, constraints: readonly Constraint[]): Problem {
  const names = new Set(constraints.map(nameOf));
  return without(
    problem,
    constraintsOf(problem).filter((one) => !names.has(nameOf(one))),
  );
}

const SEEDS = 3;
const cases = contradictionNames.flatMap((name) =>
  Array.from({ length: SEEDS }, (_, k) => [name, k + 1] as const),
);

describe('a yard with one contradiction planted', () => {
  it('is one of at least fifty', () => {
    expect(cases.length).toBeGreaterThanOrEqual(50);
  });

  it.each(cases)('%s (seed %i)', (name, seed) => {
    const { yard, workload, now, kind, source } = contradiction(name, seed);
    expect(yardFaults(yard)).toEqual([]);
    const compiled = compile({ yard, workload, now });
    const { problem } = compiled;
    expect(validate(problem)).toEqual([]);
    const { status, infeasibility } = solved(problem);
    expect(status).toBe('infeasible');
    if (infeasibility === null) throw new Error('no explanation');

    const { irreducible, members } = contradictionOf(compiled, infeasibility);
    expect(
      members.map(({ constraint, row }) => `${constraint.kind} ${row.kind}:${row.id}`),
    ).toContain(`${kind} ${source}`);
    expect(irreducible).toBe(true);
    // Each member stands in the yard file.
    for (const { row } of members) {
      const segments = row.path.split(/[.[\]]+/).filter((segment) => segment !== '');
      if (row.path !== '') expect(valueAt(yard, segments), row.path).toBeDefined();
    }
    expect(whyNot(compiled, infeasibility).join('\n')).not.toMatch(/undefined|null|NaN/);

    // Together they have no plan, without any one of them they have.
    expect(solved(kept(problem, infeasibility.constraints)).status).toBe('infeasible');
    for (const one of infeasibility.constraints) {
      const less = kept(
        problem,
        infeasibility.constraints.filter((other) => other !== one),
      );
      const { plan } = solved(less);
      expect(plan === null ? nameOf(one) : check(less, plan)).toEqual([]);
    }
  });
});
