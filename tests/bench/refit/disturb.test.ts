import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { yardOf } from '../speed/yard.ts';
import { disturbed, nearMoves, onlyDisturbance } from './disturb.ts';

describe('a disturbance of a published plan', () => {
  const problem = yardOf(40, 'loose');
  const { plan } = solve(problem, { seed: 1, iterations: 40 });
  if (plan === null) throw new Error('there is no plan to publish');

  it.each(['delayed', 'ill'] as const)(
    '%s: a sound problem that the plan does not keep',
    (kind) => {
      const after = disturbed(problem, plan, kind);
      expect(validate(after)).toEqual([]);
      const violations = check(after, { ...plan, values: [...plan.values] });
      expect(violations.filter(({ kind: what }) => what !== 'values').length).toBeGreaterThan(0);
      expect(nearMoves(after, plan)).toBe(0);
      const replan = solve(after, { seed: 1, iterations: 40, warmStart: plan }).plan;
      expect(replan && check(after, replan)).toEqual([]);
      expect(replan && nearMoves(after, replan)).toBeGreaterThan(0);
    },
  );

  it('alone leaves no other rank to make least', () => {
    const alone = onlyDisturbance(disturbed(problem, plan, 'ill'));
    expect(validate(alone)).toEqual([]);
    const replan = solve(alone, { seed: 1, iterations: 40, warmStart: plan }).plan;
    expect(replan?.values.slice(0, 3)).toEqual([0, 0, 0]);
  });
});
