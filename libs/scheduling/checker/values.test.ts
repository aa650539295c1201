import { describe, expect, it } from 'vitest';
import type { Placement, Plan } from '../model/plan.ts';
import type { Problem, PublishedTask } from '../model/problem.ts';
import { activity, builder, mode, placed, plan, problem, single, work } from '../testing/make.ts';
import { check } from './check.ts';
import { ranks } from './values.ts';

const worth = (of: Problem, ...placements: readonly Placement[]) => plan(of, placements).values;

describe('values', () => {
  it('recomputes finishes and values', () => {
    const of = single(mode({ duration: 1010, cost: 7 }));
    const right = plan(of, [placed(0, '0-1010')]);
    expect(right.values).toEqual([10, 1010, 7, 0]);
    expect(check(of, right)).toEqual([]);
    const wrongs: readonly Plan[] = [
      { ...right, finishes: [1009] },
      { ...right, finishes: [1010, 0] },
      { ...right, values: [11, 1010, 7, 0] },
      { ...right, values: [10, 1009, 7, 0] },
      { ...right, values: [10, 1010, 6, 0] },
      { ...right, values: [10, 1010, 7, 1] },
    ];
    expect(check(of, { ...right, finishes: [] })).toHaveLength(2);
    for (const wrong of wrongs)
      expect(check(of, wrong)).toMatchObject([{ kind: 'values', constraint: null }]);
  });

  it('weighs each refit by its own latest finish', () => {
    const refit = (due: number | null, weight: number) => ({
      ...problem().refits[0],
      id: `r${String(weight)}`,
      due,
      weight,
    });
    const of = problem({
      refits: [refit(20, 3), refit(null, 5), refit(10, 7), refit(0, 11)],
      activities: [
        activity('A', [mode({ duration: 20 })], { refit: 0 }),
        activity('B', [mode({ duration: 21 })], { refit: 0 }),
        activity('C', [mode({ duration: 30 })], { refit: 1 }),
        activity('D', [mode({ duration: 9 })], { refit: 2 }),
        activity('E', [mode({ duration: 99 })], { refit: null }),
      ],
    });
    const all = [
      placed(0, '0-20'),
      placed(1, '0-21'),
      placed(2, '0-30'),
      placed(3, '0-9'),
      placed(4, '0-99'),
    ];
    expect(worth(of, ...all)).toEqual([3, 3 * 21 + 5 * 30 + 7 * 9, 0, 0]);
    expect(check(of, plan(of, all))).toEqual([]);
  });

  it('waits for the next handover, after the last for the horizon', () => {
    const late = (finish: number, due: number): number => {
      const of = problem({
        horizon: 1000,
        refits: [{ ...problem().refits[0], due, weight: 2, handovers: [100, 200] }],
        activities: [activity('A', [mode({ duration: finish })])],
      });
      return worth(of, placed(0, `0-${finish}`))[0];
    };
    expect([100, 101, 200, 201].map((finish) => late(finish, 90))).toEqual([20, 220, 220, 1820]);
    expect(late(80, 100)).toBe(0);
  });
});

describe('money', () => {
  /** 480-960 with a break, overtime 960-1020 at 3 and 1020-1080 at 10. */
  const day = {
    ...problem().calendars[0],
    overtime: [
      { start: 960, end: 1020, cost: 3 },
      { start: 1020, end: 1080, cost: 10 },
    ],
  };
  const builders = [builder('Ada', { cost: 2 }), builder('Bo', { cost: 5 })];
  const of = (way: Parameters<typeof work>[1], more: Partial<Problem> = {}): Problem => ({
    ...single(work(60, way)),
    calendars: [day],
    builders,
    ...more,
  });
  const money = (given: Problem, ...placements: readonly Placement[]): number =>
    worth(given, ...placements)[2];
  const two = [{ skill: 0, minLevel: 1, count: 2 }];

  it('is of the mode and of everybody each minute', () => {
    expect(money(of({ cost: 9 }), placed(0, '500-560', [0]))).toBe(9 + 120);
    expect(money(of({ crew: two }), placed(0, '500-530', [0, 1]))).toBe(7 * 30);
  });
  it('counts the clean-down and relieved breaks, and no pauses', () => {
    expect(money(of({ cleanDown: 15 }), placed(0, '700-760', [1]))).toBe(5 * 75);
    expect(money(of({ splittable: true }), placed(0, '700-720 750-790', [1]))).toBe(5 * 60);
  });
  it('counts the overtime of each, by its span, clean-down included', () => {
    const over = { overtime: true };
    expect(money(of({}), placed(0, '930-990', [0], over))).toBe(2 * 60 + 3 * 30);
    expect(money(of({ cleanDown: 45 }), placed(0, '930-990', [0], over))).toBe(
      2 * 105 + 3 * 60 + 10 * 15,
    );
    expect(money(of({ crew: two }), placed(0, '1005-1035', [0, 1], over))).toBe(
      7 * 30 + 2 * (3 * 15 + 10 * 15),
    );
    expect(money(of({}), placed(0, '900-960', [0], over))).toBe(2 * 60);
  });
  it('counts a slot once, however many use it', () => {
    const slot = (start: number, cost: number) => ({ start, end: 600, cost, bookBy: 0 });
    const lift = [mode({ slots: 0 }), mode({ slots: 1 })];
    const cranes = problem({
      slotLists: ['crane', 'tide'].map((id, i) => ({
        id,
        slots: [slot(0, 100 + i), slot(1, 1000 + i)],
        source: id,
      })),
      activities: ['A', 'B', 'C', 'D'].map((id) => activity(id, lift)),
    });
    const lifted = (...ways: readonly (readonly [number, number])[]): number =>
      money(
        cranes,
        ...ways.map(([way, slots], i) => placed(i, '5-5', [], { mode: way, slot: slots })),
      );
    expect(lifted([0, 0], [0, 0], [0, 0], [0, 0])).toBe(100);
    expect(lifted([0, 0], [0, 1], [1, 0], [1, 0])).toBe(100 + 1000 + 101);
  });
  it('is nothing for what has happened', () => {
    const past = single(work(60, { cost: 9, cleanDown: 10 }), {
      kind: 'frozen',
      start: 0,
      finish: 60,
      builders: [0],
    });
    expect(money({ ...past, builders }, placed(0, '0-60', [0]))).toBe(0);
  });
});

describe('disturbance', () => {
  const task = (given: Partial<PublishedTask> = {}): PublishedTask => ({
    activity: 0,
    start: 500,
    builders: [0, 1],
    weight: 4,
    ...given,
  });
  const of = (tasks: readonly PublishedTask[], given: Partial<Problem> = {}): Problem => ({
    ...single(work(60, { crew: [{ skill: 0, minLevel: 1, count: 2 }] })),
    builders: ['Ada', 'Bo', 'Cy'].map((id) => builder(id)),
    published: { tolerance: 10, tasks },
    ...given,
  });
  const moved = (start: number, builders: readonly number[], tasks = [task()]): number =>
    worth(of(tasks), placed(0, `${start}-${start + 30}`, builders))[3];

  it('is the weight of what moved by more than the tolerance, either way', () => {
    expect([489, 490, 510, 511].map((start) => moved(start, [0, 1]))).toEqual([4, 0, 0, 4]);
  });
  it('is the weight of what other people do, in any order', () => {
    expect(moved(500, [1, 0])).toBe(0);
    expect(moved(500, [0, 2])).toBe(4);
    expect(moved(520, [0, 2])).toBe(8);
    expect(moved(500, [0, 1], [task({ builders: [0] })])).toBe(4);
    expect(moved(500, [0, 1], [task({ builders: [0, 1, 2] })])).toBe(4);
  });
  it('is the weight once of what is absent', () => {
    const branches = [
      { id: 'with', activities: [0], lags: [] },
      { id: 'without', activities: [], lags: [] },
    ];
    const choosy = of([task()], { choices: [{ id: 'c', branches, source: 'c' }] });
    expect(check(choosy, plan(choosy, [], [1]))).toEqual([]);
    expect(plan(choosy, [], [1]).values[3]).toBe(4);
  });
  it('sums over the tasks and is nothing where nothing is published', () => {
    const two = problem({
      activities: [activity('A', [mode()]), activity('B', [mode()])],
      published: {
        tolerance: 0,
        tasks: [
          task({ builders: [], start: 5, weight: 3 }),
          task({ activity: 1, builders: [], start: 6, weight: 4 }),
        ],
      },
    });
    const all = [placed(0, '6-6'), placed(1, '5-5')];
    expect(worth(two, ...all)[3]).toBe(7);
    expect(worth({ ...two, published: null }, ...all)[3]).toBe(0);
  });
  it('counts what has happened, which costs no money', () => {
    const past = of([task()], {
      ...single(work(60), { kind: 'frozen', start: 0, finish: 60, builders: [0] }),
      published: { tolerance: 10, tasks: [task()] },
    });
    expect(ranks(past, [placed(0, '0-60', [0])], [60])).toEqual([0, 60, 0, 8]);
  });
});
