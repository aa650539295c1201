import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { validate } from '#scheduling/model/validate.ts';
import { solve } from '#scheduling/solve.ts';
import {
  activity,
  builder,
  mode,
  placed,
  plan as planOf,
  problem as made,
  work,
} from '#scheduling/testing/make.ts';
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

/** Bo is away from 2300 to 3000, while the long work of two pauses; Ada helps elsewhere meanwhile. */
describe('a disturbance while split work pauses', () => {
  const calendar = (id: string, spans: readonly (readonly [number, number])[]) => ({
    id,
    shifts: spans.map(([start, end]) => ({ start, end })),
    breaks: [],
    overtime: [],
    source: id,
  });
  const two = [{ skill: 0, minLevel: 1, count: 2 }];
  const space = (id: string) => ({ id, dustReaches: [], settling: 0, source: id });
  const part = (id: string) => ({ id, space: 0, source: id });
  const problem = made({
    horizon: 9000,
    calendars: [
      calendar('Ada', [[0, 8000]]),
      calendar('Bo', [
        [0, 2300],
        [3000, 8000],
      ]),
    ],
    builders: [builder('Ada'), builder('Bo', { calendar: 1 })],
    resources: [
      { id: 'stand', steps: [{ from: 0, capacity: 1 }], calendar: null, source: 'stand' },
    ],
    spaces: [space('shed'), space('booth')],
    barriers: [{ id: 'sheet', closed: false, source: 'sheet' }],
    parts: [part('lid'), part('hatch')],
    activities: [
      activity('carry', [work(100, { space: 0, movesTo: 1 })], { parts: [0] }),
      activity('hang', [work(50, { barrier: { barrier: 0, closes: true } })]),
      activity(
        'long',
        [
          work(1, { work: 1 }),
          work(0, {
            work: 160_000,
            crew: two,
            splittable: true,
            space: 0,
            demands: [{ resource: 0, amount: 1, keptWhilePaused: false }],
          }),
        ],
        { parts: [1] },
      ),
      activity('over', [
        work(500, { demands: [{ resource: 0, amount: 1, keptWhilePaused: false }] }),
      ]),
      activity('going', [
        work(150, {
          cleanDown: 20,
          cost: 7,
          demands: [{ resource: 0, amount: 1, keptWhilePaused: false }],
        }),
      ]),
      activity('sand', [work(100, { space: 1 })], { parts: [0] }),
      activity('look', [mode({ duration: 10 })]),
    ],
  });
  const plan = planOf(problem, [
    placed(0, '0-100', [0]),
    placed(1, '100-150', [0]),
    placed(2, '2000-2300 3000-3500', [0, 1], { mode: 1 }),
    placed(3, '2300-2800', [0]),
    placed(4, '2800-2950', [0]),
    placed(5, '3500-3600', [0]),
    placed(6, '3600-3610'),
  ]);

  it('is made of a right plan', () => {
    expect(check(problem, plan)).toEqual([]);
  });

  it.each(['delayed', 'ill'] as const)('%s: has a plan, what has begun as it was', (kind) => {
    const after = disturbed(problem, plan, kind);
    expect(validate(after)).toEqual([]);
    const replan = solve(after, { seed: 1, iterations: 40, warmStart: plan }).plan;
    expect(replan && check(after, replan)).toEqual([]);
    const times = (of: typeof plan | null) =>
      of?.placements.slice(0, 5).map(({ start, finish }) => [start, finish]);
    expect(times(replan)).toEqual(times(plan));
  });

  it('keeps the people of what goes on, and leaves parts and barriers as what is over left them', () => {
    const { activities, parts, barriers } = disturbed(problem, plan, 'ill');
    const builders = activities.map(({ fixed }) => fixed?.builders ?? null);
    expect(builders).toEqual([[], [], [0, 1], [], [], null, null]);
    expect(activities.map(({ modes }) => modes[0].demands.length)).toEqual([0, 0, 1, 0, 0, 0, 0]);
    expect(parts.map((one) => one.space)).toEqual([1, 0]);
    expect(barriers[0].closed).toBe(true);
    expect(activities[2].modes).toEqual([
      expect.objectContaining({ crew: two, duration: 1500, splittable: false }),
    ]);
  });
});
