import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import type { SearchState } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { madeUpYard } from '#scheduling/testing/made-up-yard.ts';
import { solve } from '#scheduling/solve.ts';
import { runSolve } from './run-solve.ts';

describe('solving in a thread', () => {
  it(
    'gives what the pure solve gives, with progress and the time of the first plan',
    { timeout: 60_000 },
    async () => {
      const of = madeUpYard(2, 5);
      const states: SearchState[] = [];
      const { firstPlanMs, ...result } = await runSolve(of, {
        seed: 4,
        iterations: 300,
        onProgress: (s) => states.push(s),
      });
      expect(result).toEqual(solve(of, { seed: 4, iterations: 300 }));
      expect(firstPlanMs).toBeGreaterThan(0);
      expect(states.length).toBeGreaterThan(0);
      expect(states[0].plan).not.toBeNull();
    },
  );

  it('stops when its time is up', { timeout: 60_000 }, async () => {
    const of = madeUpYard(2, 5);
    const from = Date.now();
    const { status, plan } = await runSolve(of, { seed: 1, seconds: 2 });
    expect(Date.now() - from).toBeGreaterThanOrEqual(2000);
    // A loaded machine may not get as far as a plan in the time; then the answer is that, and no other.
    expect(status).toBe(plan === null ? 'unknown' : 'feasible');
    expect(plan === null ? [] : check(of, plan)).toEqual([]);
  });

  it('ends at once when cancelled, with the best plan so far', { timeout: 60_000 }, async () => {
    const cancel = new AbortController();
    let seen: SearchState | null = null;
    let cancelledAt = 0;
    const { plan } = await runSolve(madeUpYard(2, 5), {
      seed: 1,
      seconds: 50,
      signal: cancel.signal,
      onProgress: (state) => {
        seen ??= state;
        if (cancelledAt === 0) cancelledAt = Date.now();
        cancel.abort();
      },
    });
    expect(Date.now() - cancelledAt).toBeLessThan(10_000);
    expect(seen).not.toBeNull();
    expect(plan).not.toBeNull();
  });

  it('does not search at all where cancelled before', { timeout: 60_000 }, async () => {
    const result = await runSolve(madeUpYard(2, 5), {
      seed: 1,
      seconds: 50,
      signal: AbortSignal.abort(),
    });
    expect(result).toMatchObject({
      status: 'unknown',
      plan: null,
      iterations: 0,
      firstPlanMs: null,
    });
  });

  it('rejects where the thread fails', { timeout: 60_000 }, async () => {
    const broken: Problem = { ...madeUpYard(2, 1), tables: [] };
    await expect(runSolve(broken, { seed: 1, iterations: 5 })).rejects.toThrow(TypeError);
  });
});
