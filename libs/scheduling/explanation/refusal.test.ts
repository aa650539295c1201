import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { activity, builder, lag, placed, plan as planOf, problem, work } from '../testing/make.ts';
import { nudged, whyNotEarlier } from './refusal.ts';

const told = (of: Problem, plan: Plan, a: number, at?: number): string[] =>
  whyNotEarlier(of, plan, a, at).obstacles.map(
    ({ from, reason, until }) =>
      `${from === null ? '-' : String(from)} ${reason.kind} ${String(until)}`,
  );

const stand = { resource: 0, amount: 1, keptWhilePaused: true };

/** Coat 480-540 by Ada, sanding by Bo on the stand until 600, then fitting by Ada, who sands too until 640. */
const yard = problem({
  resources: [{ id: 'stand', steps: [{ from: 0, capacity: 1 }], calendar: null, source: 'stand' }],
  builders: [builder('Ada'), builder('Bo')],
  activities: [
    activity('coat', [work(60)]),
    activity('sand', [work(120, { demands: [stand] })]),
    activity('wipe', [work(100)]),
    activity('fit', [work(60, { demands: [stand] })], {
      releases: [{ at: 500, kind: 'delivery', source: 'truck' }],
    }),
  ],
  lags: [lag(0, 3, 30)],
});
const plan = planOf(yard, [
  placed(0, '480-540', [0]),
  placed(1, '480-600', [1]),
  placed(2, '540-640', [0]),
  placed(3, '640-700', [0]),
]);

describe('why not earlier', () => {
  it('names what refuses the minute before', () => {
    expect(check(yard, plan)).toEqual([]);
    expect(told(yard, plan, 3)).toEqual(['2 builder 640']);
    expect(whyNotEarlier(yard, plan, 3).at).toBe(639);
    expect(told(yard, plan, 0)).toEqual(['- calendar 480']);
  });

  it('names everything that refuses an earlier moment, what lasts longest first', () => {
    expect(told(yard, plan, 3, 490)).toEqual([
      '2 builder 640',
      '1 resource 600',
      '0 lag 570',
      '- release 500',
    ]);
    expect(told(yard, plan, 3, 400)).toContain('- calendar 480');
  });

  it('does not ask about a later moment, nor what is absent', () => {
    expect(whyNotEarlier(yard, plan, 3, 2000).at).toBe(639);
    expect(told(yard, { ...plan, placements: [] }, 3)).toEqual([]);
  });

  it('follows an obstacle through gaps that are too short', () => {
    const of = problem({
      activities: [60, 60, 60].map((m, a) => activity(`task-${String(a)}`, [work(m)])),
    });
    const split = planOf(of, [
      placed(0, '500-560', [0]),
      placed(1, '600-660', [0]),
      placed(2, '660-720', [0]),
    ]);
    expect(told(of, split, 2, 490)).toEqual(['1 builder 660']);
  });

  it('moves one placement alone, worked through its own hours', () => {
    const of = problem({ activities: [activity('sand', [work(300, { splittable: true })])] });
    const whole = planOf(of, [placed(0, '500-720 750-830', [0])]);
    expect(check(of, whole)).toEqual([]);
    const earlier = nudged(of, whole, 0, 20);
    expect(earlier.placements[0]).toMatchObject({
      start: 480,
      finish: 810,
      segments: [
        { start: 480, end: 720 },
        { start: 750, end: 810 },
      ],
    });
    const outside = nudged(of, whole, 0, 21).placements[0];
    expect(outside.segments[0]).toEqual({ start: 479, end: 720 });
    expect(outside.finish).toBe(809);
  });
});
