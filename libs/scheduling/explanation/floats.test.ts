import { describe, expect, it } from 'vitest';
import { letters, workedExample } from '../testing/worked-example.ts';
import { check } from '../checker/check.ts';
import type { Placement, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { madeUpYard } from '../testing/made-up-yard.ts';
import { solve } from '../solve.ts';
import { activity, lag, placed, plan as planOf, problem, work } from '../testing/make.ts';
import { plantedProblem } from '../testing/planted.ts';
import { floats } from './floats.ts';
import { nudged } from './refusal.ts';

/** The placement so many minutes later, worked by the same crew through its own hours. */
function slipped(of: Problem, at: Plan, placement: Placement, by: number): Placement {
  if (by === 0) return placement;
  const later = nudged(of, at, placement.activity, -by);
  return later.placements.find((p) => p.activity === placement.activity) ?? placement;
}

/** All at their latest at once. */
const latest = (of: Problem, plan: Plan, by: readonly (number | null)[]): Plan =>
  planOf(
    of,
    plan.placements.map((p) => slipped(of, plan, p, by[p.activity] ?? 0)),
    plan.branches,
  );

describe('floats', () => {
  it('are the slacks of the worked example', () => {
    const of = workedExample();
    const starts = [0, 2, 6, 16, 16, 20, 22, 29, 16, 25, 33, 33, 38, 38];
    const plan = planOf(
      of,
      starts.map((s, a) =>
        placed(a, `${String(s)}-${String(s + of.activities[a].modes[0].duration)}`),
      ),
    );
    const slack = new Map(floats(of, plan).map((f, a) => [letters[a], f]));
    expect(slack).toEqual(
      new Map(letters.map((id) => [id, { D: 4, G: 4, H: 4, M: 4, I: 2, K: 1 }[id] ?? 0])),
    );
  });

  it('keep calendars: a task slips to the end of the day, or not at all', () => {
    const of = problem({
      activities: [activity('first', [work(60)]), activity('last', [work(60)])],
      lags: [lag(0, 1, 0)],
    });
    const plan = planOf(of, [placed(0, '480-540', [0]), placed(1, '1920-1980', [1])]);
    expect(floats(of, plan)).toEqual([960 - 60 - 480, 0]);
  });

  it('let all activities be at their latest together, in planted plans', () => {
    for (let seed = 0; seed < 40; seed += 1) {
      const { problem: of, plan } = plantedProblem(seed, 4 + (seed % 37));
      const slack = floats(of, plan);
      for (const { activity: a } of plan.placements)
        expect(slack[a], `seed ${String(seed)}`).toBeGreaterThanOrEqual(0);
      const late = latest(of, plan, slack);
      expect(check(of, late), `seed ${String(seed)}`).toEqual([]);
      late.finishes.forEach((finish, r) => {
        expect(finish).toBeLessThanOrEqual(plan.finishes[r]);
      });
    }
  });

  it('let all activities be at their latest together, in a yard', () => {
    const of = madeUpYard(4, 6);
    const { plan, floats: slack } = solve(of, { seed: 1, iterations: 150 });
    if (!plan) throw new Error('no plan');
    expect(check(of, latest(of, plan, slack))).toEqual([]);
    expect(slack.filter((f) => f === null).length).toBe(
      of.activities.length - plan.placements.length,
    );
    expect(slack.some((f) => f === 0) && slack.some((f) => f !== null && f > 0)).toBe(true);
    expect(floats(of, plan)).toEqual(slack);
  });
});
