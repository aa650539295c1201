import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Constraint } from '../model/constraint.ts';
import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { validate } from '../model/validate.ts';
import { isDroppable, without } from '../model/without.ts';
import { create } from '../solve.ts';
import { activity, lag, mode, problem, work } from '../testing/make.ts';
import { constraintsOf, nameOf } from './conflict/subject.ts';
import { explainInfeasible } from './infeasible.ts';
import { plantedContradiction } from './testing/contradiction.ts';

/** The whole problem with only some of its constraints. */
const only = (of: Problem, kept: readonly Constraint[]): Problem => {
  const names = new Set(kept.map(nameOf));
  return without(
    of,
    constraintsOf(of).filter((one) => !names.has(nameOf(one))),
  );
};

/** What the searches say of a problem within so many iterations. */
function searched(of: Problem, iterations = 20_000): { plan: Plan | null; infeasible: boolean } {
  const search = create(of, 1, null);
  let state = search.step(1);
  while (state.plan === null && !state.done && state.iterations < iterations)
    state = search.step(32);
  return { plan: state.plan, infeasible: state.status === 'infeasible' };
}

describe('explanations of infeasibility', () => {
  it('contain the planted cause, and without any one of them there is a plan: 50 contradictions', () => {
    for (let seed = 0; seed < 50; seed += 1) {
      const { name, problem: of, cause } = plantedContradiction(seed);
      const where = `seed ${String(seed)}: ${name}`;
      expect(validate(of), where).toEqual([]);
      const { irreducible, constraints } = explainInfeasible(of);
      expect(irreducible, where).toBe(true);
      expect(constraints, where).toEqual(expect.arrayContaining([...cause]));
      expect(constraints.every(isDroppable), where).toBe(true);
      expect(searched(only(of, constraints)).infeasible, where).toBe(true);
      for (const dropped of constraints) {
        const rest = only(
          of,
          constraints.filter((one) => one !== dropped),
        );
        const { plan } = searched(rest);
        if (plan === null) throw new Error(`${where}: no plan without ${nameOf(dropped)}`);
        expect(check(rest, plan), where).toEqual([]);
      }
    }
  });

  it('name the activities they are about', () => {
    const idle = activity('idle', [work(30)]);
    const of = problem({
      activities: [idle, activity('coat', [work(60)]), activity('next', [work(60)])],
      lags: [lag(0, 1, 0), lag(1, 2, 1500), lag(1, 2, 900, { bound: 'close' })],
    });
    expect(explainInfeasible(of)).toEqual({
      irreducible: true,
      constraints: [
        { kind: 'lag', lag: 1 },
        { kind: 'lag', lag: 2 },
      ],
      activities: [1, 2],
    });
  });

  it('are the horizon alone where some work is too long for it by itself', () => {
    const of = problem({
      activities: [
        activity('short', [mode({ duration: 5 })]),
        activity('cure', [mode({ duration: 4000 })]),
      ],
    });
    expect(explainInfeasible(of)).toEqual({
      irreducible: true,
      constraints: [{ kind: 'horizon' }],
      activities: [1],
    });
  });

  it('say so where nothing was shown in the budget, and where it was not shown to be irreducible', () => {
    const { problem: of } = plantedContradiction(0);
    const nothing = explainInfeasible(of, { probes: 0, nodes: 0 });
    expect(nothing.irreducible).toBe(false);
    expect(nothing.constraints).toEqual(constraintsOf(of));
    const little = explainInfeasible(of, { probes: 16, nodes: 0 });
    expect(little.irreducible).toBe(false);
    expect(searched(only(of, little.constraints)).infeasible).toBe(true);
  });
});
