import { check } from '#scheduling/checker/check.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { rankValues } from '../../oracle/data/ranks.ts';
import type { OraclePlan } from '../../oracle/plan.ts';
import { worthOf } from './worth.ts';

/**
 * What the checker has against a general solver's plan, and whether it is worth what its model says;
 * ranks 3 and 4 its model does not know.
 */
export function complaints(problem: Problem, plan: OraclePlan, value: number): string[] {
  const values = rankValues(problem, plan.finishes);
  const found = check(problem, { ...plan, values: [...values, 0, 0] })
    .filter(({ kind, message }) => kind !== 'values' || !/^rank [34] /.test(message))
    .map(({ message }) => message);
  const worth = worthOf(problem, values);
  return worth === value ? found : [...found, `said to be worth ${value}, and is worth ${worth}`];
}
