import { expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import { readBenchmark } from '../../../apps/cli/solve/solveFile.ts';
import { scaled, undivided } from './scaled.ts';

it('times sixty times as long make the optimum so, with and without a common divisor', () => {
  const path = new URL('../../reference/fixtures/window.sch', import.meta.url).pathname;
  const problem = readBenchmark(path);
  for (const long of [scaled(problem, 60), undivided(scaled(problem, 60))]) {
    expect(validate(long)).toEqual([]);
    const { status, plan } = solve(long, { seed: 1, iterations: 5000 });
    expect([status, plan?.finishes]).toEqual(['optimal', [540]]);
    expect(plan && check(long, plan)).toEqual([]);
  }
});
