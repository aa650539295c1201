import { describe, expect, it } from 'vitest';
import { check } from '../../../checker/check.ts';
import type { Hold, Problem, Resource } from '../../../model/problem.ts';
import { activity, builder, lag, mode, problem, work } from '../../../testing/make.ts';
import { at, bestOf } from '../testing/best.ts';

const bench: Resource = {
  id: 'bench',
  steps: [{ from: 0, capacity: 1 }],
  calendar: null,
  source: '',
};
const onBench = { demands: [{ resource: 0, amount: 1, keptWhilePaused: false }] };
const hold = (given: Partial<Hold>): Hold => ({
  id: 'hold',
  activity: 0,
  resource: 0,
  amount: 1,
  ends: [],
  source: '',
  ...given,
});

function times(of: Problem, decodes = 300): [number, number][] {
  const plan = bestOf(of, decodes);
  expect(check(of, plan)).toEqual([]);
  return of.activities.map((_, a) => [at(plan, a).start, at(plan, a).finish]);
}

describe('holds', () => {
  it('last until a lag of the finish', () => {
    const of = problem({
      resources: [bench],
      activities: [
        activity('a', [mode({ duration: 30 })]),
        activity('b', [mode({ duration: 10, ...onBench })]),
      ],
      holds: [hold({ ends: [{ kind: 'lag', fns: [{ kind: 'constant', minutes: 100 }] }] })],
      lags: [lag(0, 1, 0)],
    });
    expect(times(of)).toEqual([
      [0, 30],
      [130, 140],
    ]);
  });

  it('until another activity starts, which may take the resource over', () => {
    const of = problem({
      resources: [bench],
      activities: [
        activity('lay', [mode({ duration: 30 })]),
        activity('demould', [mode({ duration: 20, ...onBench })]),
        activity('other', [mode({ duration: 5, ...onBench })]),
      ],
      holds: [hold({ ends: [{ kind: 'activity', activity: 1, anchor: 'start' }] })],
      lags: [lag(0, 1, 200), lag(0, 2, 0, { fromAnchor: 'start' })],
    });
    // The other one may not begin before the first: it waits until the bench is free.
    expect(times(of)).toEqual([
      [0, 30],
      [230, 250],
      [250, 255],
    ]);
  });

  it('end in time for what stands in their way later', () => {
    // The bench is away from 100 to 300: the hold of 30 + wait of 50 + 40 has to be over or begin after.
    const of = problem({
      resources: [
        {
          ...bench,
          steps: [
            { from: 0, capacity: 1 },
            { from: 100, capacity: 0 },
            { from: 300, capacity: 1 },
          ],
        },
      ],
      activities: [
        activity('lay', [mode({ duration: 30 })]),
        activity('move', [mode({ duration: 40 })]),
      ],
      holds: [hold({ ends: [{ kind: 'activity', activity: 1, anchor: 'finish' }] })],
      lags: [lag(0, 1, 50)],
    });
    expect(times(of)).toEqual([
      [300, 330],
      [380, 420],
    ]);
  });
});

describe('stocks', () => {
  it('are shared out by the choice of modes', () => {
    const way = (minutes: number, amount: number) =>
      mode({ duration: minutes, consumes: [{ stock: 0, amount }] });
    const of = problem({
      stocks: [{ id: 'resin', total: 9, source: '' }],
      activities: [0, 1, 2].map((a) => activity(`a${a}`, [way(10, 5), way(50, 2)])),
      lags: [lag(0, 1, 0), lag(1, 2, 0)],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    // One quick and two slow, for 9; two quick would take 12.
    expect(plan.finishes[0]).toBe(110);
  });
});

describe('slots', () => {
  const list = (now: number): Problem =>
    problem({
      now,
      slotLists: [
        {
          id: 'crane',
          slots: [
            { start: 100, end: 130, cost: 90, bookBy: 50 },
            { start: 400, end: 460, cost: 70, bookBy: 300 },
          ],
          source: '',
        },
      ],
      activities: [
        activity('mast', [mode({ duration: 20, slots: 0 })]),
        activity('keel', [mode({ duration: 25, slots: 0 })]),
      ],
    });

  it('hold the work whole, and are paid once', () => {
    const plan = bestOf(list(0));
    expect(check(list(0), plan)).toEqual([]);
    expect([at(plan, 0), at(plan, 1)].map(({ start, slot }) => [start, slot])).toEqual([
      [100, 0],
      [100, 0],
    ]);
    expect(plan.values[2]).toBe(90);
  });

  it('that can no longer be booked are not used', () => {
    const plan = bestOf(list(60));
    expect(check(list(60), plan)).toEqual([]);
    expect(at(plan, 0)).toMatchObject({ start: 400, slot: 1 });
  });
});

describe('money and disturbance', () => {
  it('the cheaper crew is taken where it costs no time', () => {
    const of = problem({
      builders: [builder('Ada', { cost: 9 }), builder('Bo', { cost: 2 })],
      activities: [activity('a', [work(60)])],
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    expect(plan.values[2]).toBe(120);
  });

  it('the published plan is kept where nothing earlier is lost', () => {
    const tasks = [
      { activity: 0, start: 600, builders: [1], weight: 5 },
      { activity: 1, start: 480, builders: [0], weight: 5 },
    ];
    const of = problem({
      activities: [activity('a', [work(60)], { refit: null }), activity('b', [work(300)])],
      published: { tolerance: 10, tasks },
    });
    const plan = bestOf(of);
    expect(check(of, plan)).toEqual([]);
    expect(plan.values).toEqual([0, 780, 0, 0]);
    expect(Math.abs(at(plan, 0).start - 600)).toBeLessThanOrEqual(10);
  });

  it('a refit is late by its handover', () => {
    const [refit] = problem().refits;
    const of = problem({
      activities: [activity('a', [work(60)])],
      refits: [{ ...refit, due: 500, handovers: [530, 900] }],
    });
    expect(bestOf(of).values.slice(0, 2)).toEqual([400, 540]);
  });
});
