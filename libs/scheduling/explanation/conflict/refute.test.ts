import { describe, expect, it } from 'vitest';
import { firstRoot } from '../../bounds/root.ts';
import type { Problem } from '../../model/problem.ts';
import { compile } from '../../search/crew/compiled/compiled.ts';
import { plantedProblem } from '../../testing/planted.ts';
import { explainInfeasible } from '../infeasible.ts';
import { createRefuter } from './refute.ts';
import { spoiltYard, twiceWipedYard } from './testing/yard.ts';

const refuter = (of: Problem) => createRefuter(of, null, firstRoot(compile(of)), {});

describe('looking for a few tasks that have no plan by themselves', () => {
  it('never finds any where the whole problem has a plan', () => {
    let looked = 0;
    for (let seed = 0; seed < 24; seed += 1) {
      const { problem } = plantedProblem(seed, 4 + (seed % 12));
      const { status, iterations } = refuter(problem).step(400);
      expect(status, `seed ${String(seed)}`).toBe('unknown');
      looked += iterations;
    }
    expect(looked).toBeGreaterThan(100);
  });

  it.each([3, 4])('finds some in a spoilt yard of 117 tasks: %i', (seed) => {
    const search = refuter(spoiltYard(seed, 13).problem);
    expect(search.step(3000)).toMatchObject({ status: 'infeasible', plan: null, done: true });
  });

  it('finds some among much that is done already', () => {
    const of = twiceWipedYard(1, 13);
    expect(firstRoot(compile(of)).infeasible).toBe(false);
    expect(refuter(of).step(3000)).toMatchObject({ status: 'infeasible', plan: null, done: true });
    const { irreducible, constraints } = explainInfeasible(of);
    expect(irreducible).toBe(true);
    const windows = constraints.flatMap((one) => (one.kind === 'lag' ? [of.lags[one.lag].id] : []));
    expect(windows).toEqual(['stale-0', 'stale-1']);
  });

  it('has nothing to do where there is a plan', () => {
    const { problem, plan } = plantedProblem(1, 8);
    const search = refuter(problem);
    search.receive(plan, []);
    expect(search.step(5)).toMatchObject({ status: 'feasible', iterations: 0, done: true });
  });
});
