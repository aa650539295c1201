import { describe, expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { check } from '../checker/check.ts';
import { constraintsOf } from '../explanation/conflict/subject.ts';
import type { Problem } from '../model/problem.ts';
import { without } from '../model/without.ts';
import { solve } from '../solve.ts';
import { bruteForce } from './brute.ts';
import { chance, range } from './draw.ts';
import { tinyProblem } from './planted.ts';

/** A problem without some of its constraints, as explanations ask: builders in two places, acts on no barrier. */
function relaxed(seed: number): Problem {
  const { problem } = tinyProblem(seed, 2 + (seed % 4));
  const rng = random(seed + 77);
  return without(
    problem,
    constraintsOf(problem).filter(() => chance(rng, 0.3)),
  );
}

describe('problems without some of their constraints', { timeout: 60_000 }, () => {
  it('are decided as trying everything does', () => {
    let proved = 0;
    for (const seed of range(120)) {
      const problem = relaxed(seed);
      const { status, plan, bounds } = solve(problem, { seed: 1, iterations: 300 });
      if (plan) expect(check(problem, plan), `seed ${seed}`).toEqual([]);
      if (status !== 'optimal' && status !== 'infeasible') continue;
      proved++;
      const best = bruteForce(problem);
      const proven = status === 'optimal' ? bounds.map(({ bound }) => bound) : undefined;
      expect(proven, `seed ${seed}`).toEqual(best?.least);
    }
    expect(proved).toBeGreaterThan(110);
  });
});
