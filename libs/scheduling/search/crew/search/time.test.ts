import { describe, expect, it } from 'vitest';
import { check } from '../../../checker/check.ts';
import type { Problem } from '../../../model/problem.ts';
import { activity, builder, lag, mode, problem, work } from '../../../testing/make.ts';
import { at, bestOf } from '../testing/best.ts';

/** The starts of the best plan, which the checker accepts. */
function starts(of: Problem): number[] {
  const plan = bestOf(of);
  expect(check(of, plan)).toEqual([]);
  return of.activities.map((_, a) => at(plan, a).start);
}

const [day] = problem().calendars;

describe('moments and hours', () => {
  it('a lag is that of the mode taken', () => {
    // By hand in 30 minutes and a wait of 400, or by machine in 60 and a wait of 10.
    const fns = [400, 10].map((minutes) => ({ kind: 'constant', minutes }) as const);
    const of = problem({
      activities: [activity('lay', [work(30), work(60)]), activity('sand', [work(30)])],
      lags: [lag(0, 1, 0, { fns })],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    expect(at(plan, 0).mode).toBe(1);
    expect(at(plan, 1).start).toBe(550);
  });

  it('the latest of several releases counts', () => {
    const releases = [500, 650, 610].map((when) => ({ at: when, kind: 'delivery', source: '' }));
    expect(starts(problem({ activities: [activity('a', [work(30)], { releases })] }))).toEqual([
      650,
    ]);
  });

  it('neither start nor finish lies in a forbidden span', () => {
    const forbidden = [
      { anchor: 'start', spans: [{ start: 480, end: 500 }], kind: 'dew', source: '' },
      { anchor: 'finish', spans: [{ start: 520, end: 555 }], kind: 'quiet', source: '' },
    ] as const;
    expect(starts(problem({ activities: [activity('a', [work(30, { forbidden })])] }))).toEqual([
      525,
    ]);
  });

  it('clean-down lies in the same shift and keeps crew and tools', () => {
    const use = { demands: [{ resource: 0, amount: 1, keptWhilePaused: false }] };
    const of = problem({
      builders: [builder('Ada')],
      resources: [{ id: 'gun', steps: [{ from: 0, capacity: 1 }], calendar: null, source: '' }],
      activities: [
        activity('spray', [work(440, { cleanDown: 30, ...use })]),
        activity('after', [mode({ duration: 10, ...use })]),
      ],
      lags: [lag(0, 1, 0)],
    });
    expect(starts(of)).toEqual([480, 950]);
    // Eleven minutes more and the clean-down would run past the shift.
    const long = {
      ...of,
      activities: [activity('spray', [work(451, { cleanDown: 30, ...use })]), of.activities[1]],
    };
    expect(() => bestOf(long)).toThrow('no plan');
  });

  it('a machine with hours pauses splittable work that nobody is needed for', () => {
    const demands = [{ resource: 0, amount: 1, keptWhilePaused: true }];
    const of = problem({
      resources: [{ id: 'oven', steps: [{ from: 0, capacity: 1 }], calendar: 0, source: '' }],
      activities: [activity('bake', [mode({ duration: 300, splittable: true, demands })])],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    expect(at(plan, 0).segments).toEqual([
      { start: 480, end: 720 },
      { start: 750, end: 810 },
    ]);
    // In one piece it meets no break: 240 minutes fit before it, 250 only the next morning or after it.
    const whole = { ...of, activities: [activity('bake', [mode({ duration: 205, demands })])] };
    expect(starts(whole)).toEqual([480]);
    const later = { ...of, activities: [activity('bake', [mode({ duration: 245, demands })])] };
    expect(() => bestOf(later)).toThrow('no plan');
  });

  it('overtime is used where it is quicker and paid only for its minutes', () => {
    const overtime = [{ start: 960, end: 1080, cost: 3 }];
    const of = problem({
      calendars: [{ ...day, overtime }],
      builders: [builder('Ada', { cost: 1 })],
      activities: [activity('lay', [work(500)])],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    // 500 minutes do not fit a shift of 480, but shift and overtime are one.
    expect(at(plan, 0)).toMatchObject({ start: 480, finish: 980, overtime: true });
    expect(plan.values[2]).toBe(500 + 20 * 3);
  });

  it('a learner works beside a senior only', () => {
    const able = (level: number, needsSenior: boolean) => [
      { skill: 0, level, speed: 100, needsSenior },
    ];
    const crew = [{ skill: 0, minLevel: 1, count: 2 }];
    const of = problem({
      builders: [
        builder('Lee', { abilities: able(1, true) }),
        builder('Max', { abilities: able(1, true) }),
        builder('Ada', { abilities: able(2, false), calendar: 1 }),
      ],
      calendars: [day, { ...day, id: 'late', shifts: [{ start: 600, end: 960 }], breaks: [] }],
      activities: [activity('lay', [mode({ work: 6000, crew })])],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    expect(at(plan, 0).start).toBe(600);
    expect(at(plan, 0).crew.map((one) => one.builder)).toContain(2);
  });

  it('set work keeps start, finish and people', () => {
    const set = (given: object) =>
      ({ kind: 'set', start: null, finish: null, builders: null, ...given }) as const;
    const of = problem({
      activities: [
        activity('a', [work(30)], { fixed: set({ start: 600 }) }),
        activity('b', [work(30)], { fixed: set({ finish: 700 }) }),
        activity('c', [work(30)], { fixed: set({ builders: [1] }) }),
      ],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    expect([at(plan, 0).start, at(plan, 1).finish]).toEqual([600, 700]);
    expect(at(plan, 2).crew[0].builder).toBe(1);
  });
});

describe('frozen work', () => {
  it('was done in a mode that its lags allow', () => {
    const fixed = (start: number, finish: number) =>
      ({ kind: 'frozen', start, finish, builders: [] }) as const;
    const fns = [300, 20].map((minutes) => ({ kind: 'constant', minutes }) as const);
    const of = problem({
      activities: [
        activity('a', [mode({ duration: 40 }), mode({ duration: 40 })], { fixed: fixed(0, 40) }),
        activity('b', [mode({ duration: 10 })], { fixed: fixed(60, 70) }),
      ],
      lags: [lag(0, 1, 0, { fns })],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    expect(at(plan, 0).mode).toBe(1);
  });

  it('that no right plan can hold gives none', () => {
    const fixed = { kind: 'frozen', start: 10, finish: 40, builders: [0] } as const;
    const of = problem({
      activities: [activity('a', [work(30)], { fixed }), activity('b', [work(30)], { fixed })],
    });
    expect(() => bestOf(of, 50)).toThrow('no plan');
  });
});
