import { describe, expect, it } from 'vitest';
import type { Activity, Mode, Problem } from '../model/problem.ts';
import { compile } from '../search/crew/compiled/compiled.ts';
import { activity, builder, lag, mode, problem, work } from '../testing/make.ts';
import { analyse } from './critical-path.ts';
import { proveRoot } from './root.ts';

/** [earliest start, latest start, earliest finish, latest finish] of an activity. */
function window(of: Problem, a: number): number[] {
  const { domains: d } = analyse(compile(of));
  return [d.startFrom[a], d.startTo[a], d.finishFrom[a], d.finishTo[a]];
}

const alone = (way: Mode, given: Partial<Activity> = {}, yard: Partial<Problem> = {}): Problem =>
  problem({ activities: [activity('A', [way], given)], ...yard });

const day = problem().calendars[0];

describe('windows', () => {
  it('begin with the last release', () => {
    const releases = [600, 500].map((at) => ({ at, kind: 'boat', source: 'boat' }));
    expect(window(alone(work(60), { releases }), 0)).toEqual([600, 2340, 660, 2400]);
  });

  it('count clean-down against shifts and horizon', () => {
    // From 2300 on there are 20 minutes to the horizon less than the shift has.
    const of = alone(work(60, { cleanDown: 30 }), {}, { horizon: 2380 });
    expect(window(of, 0)).toEqual([480, 2290, 540, 2350]);
  });

  it('reach into overtime, and back from where work without it would end', () => {
    const calendars = [{ ...day, overtime: [{ start: 960, end: 1020, cost: 1 }] }];
    const releases = [{ at: 930, kind: 'boat', source: 'boat' }];
    expect(window(alone(work(60), { releases }, { calendars }), 0)).toEqual([930, 2340, 990, 2400]);
    const long = alone(work(600, { splittable: true }), { releases }, { calendars });
    // 90 minutes on the first day with overtime, 510 of 450 on the second are too many.
    expect(proveRoot(compile(long)).infeasible).toBe(true);
    const shorter = alone(work(500, { splittable: true }), { releases }, { calendars });
    expect(window(shorter, 0)).toEqual([930, 970, 2360, 2400]);
  });

  it('keep to the hours of resources, of demands but not of holds', () => {
    const night = { ...day, id: 'night', shifts: [{ start: 500, end: 700 }], breaks: [] };
    const yard = {
      calendars: [day, night],
      resources: [{ id: 'lathe', steps: [{ from: 0, capacity: 1 }], calendar: 1, source: 'lathe' }],
    };
    const demand = { resource: 0, amount: 1, keptWhilePaused: false };
    expect(window(alone(work(60, { demands: [demand] }), {}, yard), 0)).toEqual([
      500, 640, 560, 700,
    ]);
    const ends = [{ kind: 'lag', fns: [{ kind: 'constant', minutes: 0 }] }] as const;
    const holds = [{ id: 'h', activity: 0, resource: 0, amount: 1, ends, source: 'h' }];
    expect(window(alone(work(60), {}, { ...yard, holds }), 0)[0]).toBe(480);
  });

  it('have holes for starts and for finishes', () => {
    const forbidden = [
      { anchor: 'start', spans: [{ start: 400, end: 500 }], kind: 'dew', source: 'dew' },
      { anchor: 'finish', spans: [{ start: 550, end: 600 }], kind: 'dew', source: 'dew' },
    ] as const;
    expect(window(alone(work(60, { forbidden })), 0).slice(0, 3)).toEqual([540, 2340, 600]);
  });

  it('lie in slots that can still be booked', () => {
    const slots = [
      { start: 500, end: 550, cost: 1, bookBy: 100 },
      { start: 600, end: 700, cost: 9, bookBy: 100 },
      { start: 620, end: 800, cost: 9, bookBy: 10 },
    ];
    const slotLists = [{ id: 'crane', slots, source: 'crane' }];
    const of = alone(work(60, { slots: 0 }), {}, { slotLists, now: 50 });
    expect(window(of, 0)).toEqual([600, 640, 660, 700]);
  });

  it('open with the least and close with the greatest function of the modes left', () => {
    const fns = [20, 50, 5].map((minutes) => ({ kind: 'constant', minutes }) as const);
    const nobody = [{ skill: 1, minLevel: 1, count: 1 }];
    const modes = [mode({ duration: 10 }), mode({ duration: 10 }), work(10, { crew: nobody })];
    const of = problem({
      activities: [
        activity('A', modes, { fixed: { kind: 'set', start: 100, finish: null, builders: null } }),
        activity('B', [mode({ duration: 10 })]),
      ],
      lags: [lag(0, 1, 0, { fns }), lag(0, 1, 0, { fns, bound: 'close' })],
    });
    expect(window(of, 1).slice(0, 2)).toEqual([130, 160]);
  });
});

describe('bounds of money and disturbance', () => {
  it('are the cheapest ways of what is certain, clean-down and slot included', () => {
    const slots = [
      { start: 0, end: 2000, cost: 7, bookBy: 0 },
      { start: 0, end: 2000, cost: 3, bookBy: 0 },
    ];
    const of = problem({
      builders: [
        builder('Ada', { cost: 5 }),
        builder('Bo', {
          cost: 2,
          abilities: [{ skill: 0, level: 1, speed: 50, needsSenior: false }],
        }),
      ],
      slotLists: [{ id: 'crane', slots, source: 'crane' }],
      activities: [
        activity('A', [work(30, { cleanDown: 10, cost: 11 }), work(30, { cost: 1000 })]),
        activity('B', [mode({ duration: 10, slots: 0 })]),
        activity('C', [mode({ cost: 40 })]),
        activity('D', [mode({ cost: 50 })]),
      ],
      choices: [
        {
          id: 'bond',
          source: 'bond',
          branches: [2, 3].map((a) => ({ id: String(a), activities: [a], lags: [] })),
        },
      ],
    });
    // Bo takes 60 and 10 minutes for 2 each, Ada 30 and 10 for 5 each.
    const cheapest = 11 + Math.min(2 * 70, 5 * 40);
    expect(proveRoot(compile(of)).bounds[2]).toEqual({
      bound: cheapest + 3 + 40,
      caps: [],
      proof: 'least-cost',
    });
  });

  it('count what cannot start near its published moment, or not with those people', () => {
    const told = (start: number, builders: number[]): Problem =>
      alone(
        work(60),
        {},
        {
          published: { tolerance: 20, tasks: [{ activity: 0, start, builders, weight: 3 }] },
        },
      );
    const bound = (of: Problem): number => proveRoot(compile(of)).bounds[3].bound;
    expect(bound(told(460, [0]))).toBe(0);
    expect(bound(told(459, [0]))).toBe(3);
    expect(bound(told(2361, [0, 1]))).toBe(6);
    expect(bound(told(600, [0, 1]))).toBe(3);
  });

  it('count handovers that are missed', () => {
    const refit = { id: 'r', release: 0, due: 500, handovers: [520, 900], weight: 2, source: 'r' };
    expect(proveRoot(compile(alone(work(60), {}, { refits: [refit] }))).bounds[0].bound).toBe(800);
  });
});

describe('proofs that there is no plan', () => {
  const set = (start: number): Partial<Activity> => ({
    fixed: { kind: 'set', start, finish: null, builders: [0] },
  });
  const both = (second: number, one: Partial<Activity>, yard: Partial<Problem>): boolean => {
    const ways = [work(60), work(60)];
    const activities = ways.map((way, a) =>
      activity(String(a), [way], { ...one, ...set(a === 0 ? 500 : second) }),
    );
    return proveRoot(compile(problem({ activities, ...yard }))).infeasible;
  };

  it('see that a builder is wanted twice, and that an unlimited one is not', () => {
    expect(both(559, {}, {})).toBe(true);
    expect(both(560, {}, {})).toBe(false);
    expect(both(559, {}, { builders: [builder('Ada', { unlimited: true })] })).toBe(false);
  });

  it('see that a hold and a demand ask for more than there is', () => {
    const resources = [
      { id: 'mould', steps: [{ from: 0, capacity: 1 }], calendar: null, source: 'mould' },
    ];
    const ends = [{ kind: 'lag', fns: [{ kind: 'constant', minutes: 100 }] }] as const;
    const holds = [0, 1].map((a) => ({
      id: String(a),
      activity: a,
      resource: 0,
      amount: 1,
      ends,
      source: 'h',
    }));
    expect(both(659, {}, { resources, holds })).toBe(true);
    expect(both(660, {}, { resources, holds })).toBe(false);
  });

  it('see that a stock does not do, whatever is chosen', () => {
    const of = (total: number): Problem => {
      const uses = (amount: number): Mode => mode({ consumes: [{ stock: 0, amount }] });
      return problem({
        stocks: [{ id: 'resin', total, source: 'resin' }],
        activities: [
          activity('A', [uses(5), uses(3)]),
          activity('B', [uses(4)]),
          activity('C', [uses(2)]),
        ],
        choices: [
          {
            id: 'bond',
            source: 'bond',
            branches: [1, 2].map((a) => ({ id: String(a), activities: [a], lags: [] })),
          },
        ],
      });
    };
    expect(proveRoot(compile(of(4))).infeasible).toBe(true);
    expect(proveRoot(compile(of(5))).infeasible).toBe(false);
  });

  it('see a part that can never be where it is worked on', () => {
    const spaces = ['bay', 'booth'].map((id) => ({ id, dustReaches: [], settling: 0, source: id }));
    const parts = [{ id: 'hatch', space: 0, source: 'hatch' }];
    const yard = { spaces, parts };
    expect(proveRoot(compile(alone(work(60, { space: 1 }), { parts: [0] }, yard))).infeasible).toBe(
      true,
    );
    const carried = problem({
      ...yard,
      activities: [
        activity('A', [work(60, { space: 1 })], { parts: [0] }),
        activity('carry', [work(5, { movesTo: 1 })], { parts: [0] }),
      ],
    });
    expect(proveRoot(compile(carried)).infeasible).toBe(false);
  });

  it('are silent where there is a plan', () => {
    expect(proveRoot(compile(alone(work(480)))).infeasible).toBe(false);
    expect(proveRoot(compile(alone(work(481)))).infeasible).toBe(true);
  });
});
