import { describe, expect, it } from 'vitest';
import { analyse } from '#scheduling/bounds/critical-path.ts';
import { check } from '#scheduling/checker/check.ts';
import type { SearchState } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { compile } from '#scheduling/search/crew/compiled/compiled.ts';
import { isPure } from '#scheduling/search/exact/pure.ts';
import { madeUpYard } from '#scheduling/testing/made-up-yard.ts';
import { activity, mode, problem } from '#scheduling/testing/make.ts';
import { solve } from '#scheduling/solve.ts';
import { runSolve, TooLittleMemory } from './run-solve.ts';

/** Alike jobs of which two fit at a time and not quite: no proof in any reasonable time. */
const crowded = problem({
  horizon: 2000,
  refits: [{ id: 'refit', release: 0, due: null, handovers: [], weight: 1, source: 'refit' }],
  resources: [{ id: 'press', steps: [{ from: 0, capacity: 7 }], calendar: null, source: 'press' }],
  activities: Array.from({ length: 46 }, (_, i) =>
    activity(`job-${String(i)}`, [
      mode({
        duration: 5 + (i % 7),
        demands: [{ resource: 0, amount: 2 + (i % 3), keptWhilePaused: false }],
      }),
    ]),
  ),
});

describe('solving in threads', () => {
  it.each([
    ['a yard', madeUpYard(2, 4), 1250],
    ['a plain project', crowded, 2600],
  ] as const)(
    'gives the same for %s with 1, 2 and 3 of them as without',
    { timeout: 120_000 },
    async (_, of, iterations) => {
      const pure = solve(of, { seed: 4, iterations });
      // Long enough for searchers of all kinds to have had a part in it.
      expect(isPure(of)).toBe(of === crowded);
      expect(pure).toMatchObject({ status: 'feasible', iterations });
      for (const threads of [1, 2, 3]) {
        const run = await runSolve(of, { seed: 4, iterations, threads });
        expect(run).toEqual({
          ...pure,
          firstPlanMs: run.firstPlanMs,
          earliest: isPure(of) ? null : analyse(compile(of)).finishes,
          shortOfMemory: false,
        });
      }
    },
  );

  it('says so where memory is too little for anything', { timeout: 60_000 }, async () => {
    const options = { seed: 1, iterations: 5, threads: 1, memoryMB: 8 };
    await expect(runSolve(madeUpYard(2, 13), options)).rejects.toThrow(TooLittleMemory);
  });

  it(
    'gives what the pure solve gives, with progress and the time of the first plan',
    { timeout: 60_000 },
    async () => {
      const of = madeUpYard(2, 5);
      const states: SearchState[] = [];
      const { firstPlanMs, earliest, shortOfMemory, ...result } = await runSolve(of, {
        seed: 4,
        iterations: 300,
        onProgress: (s) => states.push(s),
      });
      expect(result).toEqual(solve(of, { seed: 4, iterations: 300 }));
      expect(shortOfMemory).toBe(false);
      expect(earliest).toEqual(analyse(compile(of)).finishes);
      expect(firstPlanMs).toBeGreaterThan(0);
      expect(states.length).toBeGreaterThan(0);
      expect(states[0].plan).not.toBeNull();
    },
  );

  it('stops when its time is up', { timeout: 60_000 }, async () => {
    const of = madeUpYard(2, 5);
    const from = Date.now();
    const { status, plan } = await runSolve(of, { seed: 1, seconds: 2 });
    // Less what was kept for finding its reasons and not needed: an eighth at most.
    expect(Date.now() - from).toBeGreaterThan(1700);
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
