import { describe, expect, it } from 'vitest';
import type { Problem } from '#scheduling/model/problem.ts';
import { solve } from '#scheduling/solve.ts';
import { smallProblem } from '#scheduling/testing/small/small.ts';
import { readBenchmark } from '../../../../apps/cli/solve/solveFile.ts';
import { strict } from '../../../oracle/compare.ts';
import { waysOf } from '../../../oracle/ways/ways.ts';
import { solveModel } from '../../../support/minizinc/solve.ts';
import { complaints } from '../judge.ts';
import { fileModel } from './answer.ts';
import { calendarsModel } from './calendars.ts';
import { constraintModel } from './constraint.ts';
import { linearModel } from './linear.ts';
import { narrowed } from './narrow.ts';
import { skillsModel } from './skills.ts';

const limits = { solver: 'chuffed', seconds: 60, short: true } as const;
const PATIENCE_MS = 900_000;

const fixture = (name: string): Problem =>
  readBenchmark(new URL(`../../../reference/fixtures/${name}`, import.meta.url).pathname);

/** Optima that trying every schedule gives (tests/reference). */
describe('the models for general solvers have the known optima', { timeout: PATIENCE_MS }, () => {
  it.each([
    ['options.dzn', constraintModel, 6],
    ['options.dzn', linearModel, 6],
    ['mastery.dzn', skillsModel, 5],
    ['working.json', calendarsModel, 8],
  ] as const)('%s', async (name, model, makespan) => {
    const problem = fixture(name);
    const horizon = Math.min(problem.horizon, makespan + 3);
    const { texts, value, plan } = fileModel(problem, model(problem, horizon));
    const { status, output } = await solveModel(texts, limits);
    expect([status, output && value(output)]).toEqual(['OPTIMAL_SOLUTION', makespan]);
    expect(output && complaints(problem, plan(output), makespan)).toEqual([]);
    // A plan that is not worth what is said does not pass.
    expect(output && complaints(problem, plan(output), makespan - 1)).toHaveLength(1);
  });

  it('and no solution below it', () => {
    // Where arcs alone do not leave the time, no solver is needed.
    expect(constraintModel(fixture('window.sch'), 3)).toContain('constraint false');
    expect(linearModel(fixture('window.sch'), 3)).toContain('constraint false');
    expect(skillsModel(fixture('mastery.dzn'), 1)).toContain('constraint false');
  });
});

describe('times that no plan as good as a known one has', () => {
  it('are left out, and none that the best plan has', () => {
    let before = 0;
    let after = 0;
    for (const seed of [7, 10, 17, 23, 28, 34, 44, 52, 55, 56]) {
      const problem = strict(smallProblem(seed));
      const { plan } = solve(problem, { seed: 1, iterations: 3000 });
      if (plan === null || plan.values[0] > 0) throw new Error(`another problem than ${seed}`);
      const ways = waysOf(problem);
      const left = narrowed(problem, ways, plan.values[1]);
      for (const { activity, mode, start, finish } of plan.placements) {
        const kept = left.some(
          (way) =>
            way.activity === activity &&
            way.mode === mode &&
            way.times.some((time) => time.start === start && time.finish === finish),
        );
        expect(kept, `problem ${seed}, activity ${activity}`).toBe(true);
      }
      before += ways.reduce((sum, way) => sum + way.times.length, 0);
      after += left.reduce((sum, way) => sum + way.times.length, 0);
    }
    expect(after).toBeLessThan(before / 2);
  });
});
