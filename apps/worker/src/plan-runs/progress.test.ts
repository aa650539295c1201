import { describe, expect, it } from 'vitest';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { readYard } from '#planning/yard/read.ts';
import type { SearchState } from '#scheduling/model/plan.ts';
import { solve } from '#scheduling/solve.ts';
import { smallYard } from '#tests/support/small-yard.ts';
import { differs, progressOf } from './progress.ts';

/** The small yard, in which the builder's hour costs 36 euros. */
function paidYard() {
  const { people = [], ...yard } = smallYard();
  return readYard(
    {
      ...yard,
      people: people.map((one) => (one.id === 'bram' ? { ...one, hourlyCost: 3600 } : one)),
    },
    'paid yard',
  );
}

const yard = paidYard();
const { problem } = compile({ yard, workload: makeWorkload(yard) });
const told: SearchState[] = [];
solve(problem, { seed: 1, iterations: 64, onProgress: (state) => told.push(state) });
const withPlan = told.filter(({ plan }) => plan !== null);

describe('how far a search has come', () => {
  it('is told with money in whole cents, of the best plan and of the bound', () => {
    // 30 min + 40 min/m² and 15 min + 30 min/m², of 2 m², by one builder: 185 min at 60 cents.
    const state = withPlan[withPlan.length - 1];
    const progress = progressOf(problem, state);
    expect(progress.bestMoney).toBe(185 * 60);
    expect(progress.boundMoney).toBe(185 * 60);
    expect(progress.bestFinishAt?.toISOString()).toBe('2026-12-01T08:15:00.000Z');
  });

  it('has no best before there is a plan', () => {
    const progress = progressOf(problem, { ...withPlan[0], plan: null });
    expect(progress).toMatchObject({ bestMoney: null, bestLateness: null, bestFinishAt: null });
    expect(progress.gap).toBeNull();
  });

  it('is news where a value or a bound is another one, not where only more was tried', () => {
    const now = progressOf(problem, withPlan[0]);
    expect(differs(null, now)).toBe(true);
    expect(differs(now, { ...now, iterationsDone: now.iterationsDone + 1 })).toBe(false);
    expect(differs(now, { ...now, bestMoney: 1 })).toBe(true);
    expect(differs(now, { ...now, boundFinishes: now.boundFinishes + 1 })).toBe(true);
  });
});
