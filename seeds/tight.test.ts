import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile } from '#planning/compile/compile.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { analyse } from '#scheduling/bounds/critical-path.ts';
import { compile as indexed } from '#scheduling/search/crew/compiled/compiled.ts';
import { generateYard, type YardSettings } from './generate/yard.ts';

type Row = Omit<YardSettings, 'tightness'> & {
  /** Ranks 1 and 2 of the best plan known, which the checker accepted, and the bound of rank 2. */
  readonly lateness: number;
  readonly finishes: number;
  readonly bound: number;
};

/**
 * Yards of which a plan is known whose finishes are at least this far above what the critical
 * path proves: what is between them is up to crews and their order. The values may only get better.
 */
const FAR = 0.15;

const rows = JSON.parse(
  readFileSync(new URL('./generate/tight.json', import.meta.url), 'utf8'),
) as readonly Row[];

describe('the list of tight yards', () => {
  it('has some of each size', () => {
    expect([...new Set(rows.map(({ tasks }) => tasks))]).toEqual([15, 40, 120, 300, 800]);
  });

  it.each(rows)('$tasks tasks, $season, seed $seed', (row) => {
    const { tasks, boats, season, seed, finishes, bound } = row;
    const yard = generateYard({ tasks, boats, tightness: 'tight', season, seed });
    const { problem } = compile({ yard, workload: makeWorkload(yard) });
    const earliest = analyse(indexed(problem)).finishes;
    const proved = problem.refits.reduce((sum, { weight }, r) => sum + weight * earliest[r], 0);
    // Another bound is another yard, for which the plan is not known; or a better bound.
    expect(proved).toBe(bound);
    expect((finishes - bound) / finishes).toBeGreaterThanOrEqual(FAR);
  });
});
