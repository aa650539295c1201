import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { createExact } from '#scheduling/search/exact/exact.ts';
import { readBenchmark } from '../../apps/cli/solve/solveFile.ts';
import { absence, contradiction, knownOf, type Known } from './data.ts';

/**
 * Published optima and verdicts (R. Kolisch, A. Sprecher, EJOR 96 (1997); the ProGen/max sets
 * of C. Schwindt; tables in the benchmark folder's README). Limits are iterations, so that a
 * slow machine gives the same answers.
 */
const fixture = (name: string): string => new URL(`fixtures/${name}`, import.meta.url).pathname;

function solve(path: string, iterations: number) {
  const problem = readBenchmark(path);
  const state = createExact(problem, 1, null).step(iterations);
  return { problem, state, makespan: state.plan === null ? null : state.plan.finishes[0] };
}

/** Solves, checks the plan and compares with the table; gives the status. */
function compare(known: Known, iterations: number): string {
  const { problem, state, makespan } = solve(known.path, iterations);
  if (state.plan !== null) expect(check(problem, state.plan), known.name).toEqual([]);
  const found = { status: state.status, makespan, bound: state.bounds[1].bound };
  expect(contradiction(known, found), known.name).toBeNull();
  return state.status;
}

describe('files of our own', () => {
  it('six jobs, four of which exclude one another on R 1: 4 + 3 + 4 + 3 periods', () => {
    const { problem, state, makespan } = solve(fixture('small.sm'), 1000);
    expect([state.status, makespan]).toEqual(['optimal', 14]);
    expect(state.plan && check(problem, state.plan)).toEqual([]);
  });

  it('a maximum lag, and three activities that exclude one another: 3 + 2 + 4 periods', () => {
    const { problem, state, makespan } = solve(fixture('window.sch'), 1000);
    expect([state.status, makespan]).toEqual(['optimal', 9]);
    expect(state.plan && check(problem, state.plan)).toEqual([]);
  });

  it('two activities that must overlap and cannot: no plan', () => {
    expect(solve(fixture('no-plan.sch'), 1000).state.status).toBe('infeasible');
  });
});

describe.skipIf(absence !== null)(
  `published files${absence === null ? '' : ` (skipped: ${absence})`}`,
  () => {
    it('PSPLIB j30: 60 files, 55 optima proved and none contradicted', { timeout: 120_000 }, () => {
      const sample = knownOf('j30').filter((_, k) => k % 8 === 3);
      expect(sample).toHaveLength(60);
      const statuses = sample.map((known) => compare(known, 3000));
      expect(statuses.filter((s) => s === 'optimal').length).toBeGreaterThanOrEqual(55);
    });

    for (const [set, iterations, step] of [
      ['rcpsp-max/ubo10', 5000, 1],
      ['rcpsp-max/j10', 5000, 1],
      ['rcpsp-max/j20', 5000, 1],
      ['rcpsp-max/ubo20', 5000, 2],
    ] as const) {
      it(`ProGen/max ${set}: every verdict as published`, { timeout: 120_000 }, () => {
        for (const known of knownOf(set).filter((_, k) => k % step === 0)) {
          expect(compare(known, iterations), known.name).toBe(known.status);
        }
      });
    }

    it(
      'ProGen/max ubo50: a plan or a proof for each, none contradicted',
      { timeout: 120_000 },
      () => {
        for (const known of knownOf('rcpsp-max/ubo50').filter((_, k) => k % 5 === 0)) {
          const status = compare(known, 300);
          expect(status === 'infeasible', known.name).toBe(known.status === 'infeasible');
          expect(status, known.name).not.toBe('unknown');
        }
      },
    );
  },
);
