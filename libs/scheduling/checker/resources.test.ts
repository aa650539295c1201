import { describe, expect, it } from 'vitest';
import type { Mode, Problem, Resource } from '../model/problem.ts';
import { activity, kinds, mode, placed, problem, work } from '../testing/make.ts';

const resource = (id: string, ...steps: readonly (readonly [number, number])[]): Resource => ({
  id,
  steps: steps.map(([from, capacity]) => ({ from, capacity })),
  calendar: null,
  source: id,
});
const needs = (amount: number, keptWhilePaused = false): Pick<Mode, 'demands'> => ({
  demands: [{ resource: 0, amount, keptWhilePaused }],
});

describe('resources', () => {
  const kept = (keptWhilePaused: boolean): Problem =>
    problem({
      resources: [resource('clamp', [0, 1])],
      activities: [
        activity('A', [work(300, { splittable: true, ...needs(1, keptWhilePaused) })]),
        activity('B', [mode({ duration: 30, ...needs(1) })]),
      ],
    });
  const sanding = placed(0, '480-720 750-810', [0]);
  it('are free in a pause unless kept', () => {
    expect(kinds(kept(false), [sanding, placed(1, '720-750')])).toEqual([]);
    expect(kinds(kept(false), [sanding, placed(1, '719-749')])).toEqual(['resource']);
    expect(kinds(kept(true), [sanding, placed(1, '720-750')])).toEqual(['resource']);
    expect(kinds(kept(true), [sanding, placed(1, '810-840')])).toEqual([]);
  });
  it('come and go by steps', () => {
    const of = problem({
      resources: [resource('stand', [0, 0], [100, 2], [200, 1])],
      activities: [activity('A', [mode({ duration: 100, ...needs(2) })])],
    });
    expect(kinds(of, [placed(0, '100-200')])).toEqual([]);
    expect(kinds(of, [placed(0, '99-199')])).toEqual(['resource']);
    expect(kinds(of, [placed(0, '101-201')])).toEqual(['resource']);
  });
  it('stay taken in the clean-down, and by what has happened', () => {
    const wet = work(60, { cleanDown: 10, ...needs(1) });
    const of = (fixed: boolean): Problem =>
      problem({
        resources: [resource('clamp', [0, 1])],
        activities: [
          activity('A', [wet], {
            fixed: fixed ? { kind: 'frozen', start: 500, finish: 560, builders: [0] } : null,
          }),
          activity('B', [mode({ duration: 5, ...needs(1) })]),
        ],
      });
    const laid = placed(0, '500-560', [0]);
    expect(kinds(of(false), [laid, placed(1, '570-575')])).toEqual([]);
    expect(kinds(of(false), [laid, placed(1, '569-574')])).toEqual(['resource']);
    expect(kinds(of(true), [laid, placed(1, '560-565')])).toEqual([]);
    expect(kinds(of(true), [laid, placed(1, '559-564')])).toEqual(['resource']);
  });
  it('count nothing before the beginning', () => {
    const of = problem({
      resources: [resource('clamp', [0, 0])],
      activities: [
        activity('A', [mode(needs(1))], {
          fixed: { kind: 'frozen', start: -50, finish: 0, builders: [] },
        }),
      ],
    });
    expect(kinds(of, [placed(0, '-50-0')])).toEqual([]);
    const later: Problem = {
      ...of,
      activities: [
        { ...of.activities[0], fixed: { kind: 'frozen', start: -50, finish: 1, builders: [] } },
      ],
    };
    expect(kinds(later, [placed(0, '-50-1')])).toEqual(['resource']);
  });
});

describe('resources with hours', () => {
  /** The booth: 600-700 with a break 650-660, and 800-900. */
  const hours = {
    id: 'booth',
    shifts: [
      { start: 600, end: 700 },
      { start: 800, end: 900 },
    ],
    breaks: [{ start: 650, end: 660 }],
    overtime: [{ start: 700, end: 750, cost: 0 }],
    source: 'booth hours',
  };
  const of = (way: Mode): Problem =>
    problem({
      calendars: [...problem().calendars, hours],
      resources: [{ ...resource('booth', [0, 1]), calendar: 1 }],
      activities: [activity('A', [{ ...way, ...needs(1) }])],
    });
  it.each([
    ['inside a shift up to the break', '600-650', []],
    ['a minute into the break, observed by the booth', '601-651', ['hours']],
    ['from the end of the break', '660-700', []],
    ['a minute into what is overtime for people', '661-701', ['hours']],
    ['over two of its shifts', '690-810', ['hours']],
    ['a minute early', '799-809', ['hours']],
  ] as const)('one piece %s', (_, spans, expected) => {
    const { start, finish } = placed(0, spans);
    const minutes = finish - start;
    expect(kinds(of(mode({ duration: minutes })), [placed(0, spans)])).toEqual(expected);
    expect(kinds(of(work(minutes)), [placed(0, spans, [0], { overtime: true })])).toEqual(expected);
  });
  it('keep the clean-down inside', () => {
    const wet = of(work(20, { cleanDown: 10 }));
    expect(kinds(wet, [placed(0, '670-690', [0])])).toEqual([]);
    expect(kinds(wet, [placed(0, '671-691', [0])])).toEqual(['hours']);
  });
  it('make split work pause, with a crew or without', () => {
    const crewless = of(mode({ duration: 100, splittable: true }));
    expect(kinds(crewless, [placed(0, '640-650 660-700 800-850')])).toEqual([]);
    expect(kinds(crewless, [placed(0, '640-740')])).toEqual(['segments', 'duration', 'hours']);
    expect(kinds(crewless, [placed(0, '640-650 660-750')])).toEqual([
      'segments',
      'duration',
      'hours',
    ]);
    const crewed = of(work(100, { splittable: true }));
    expect(kinds(crewed, [placed(0, '640-650 660-700 800-850', [0])])).toEqual([]);
    const free = problem({
      activities: [activity('A', [mode({ duration: 100, splittable: true })])],
    });
    expect(kinds(free, [placed(0, '640-740')])).toEqual([]);
  });
  it('do not bind work that demands none, takes no time or has happened', () => {
    const none = of(mode({ duration: 10 }));
    const [way] = none.activities[0].modes;
    const without: Problem = {
      ...none,
      activities: [activity('A', [{ ...way, demands: [{ ...way.demands[0], amount: 0 }] }])],
    };
    expect(kinds(without, [placed(0, '0-10')])).toEqual([]);
    expect(kinds(of(mode()), [placed(0, '0-0')])).toEqual([]);
    const happened: Problem = {
      ...none,
      activities: [
        {
          ...none.activities[0],
          fixed: { kind: 'frozen', start: 0, finish: 10, builders: [] },
        },
      ],
    };
    expect(kinds(happened, [placed(0, '0-10')])).toEqual([]);
  });
});

describe('stocks', () => {
  const eats = (...amounts: readonly number[]): Mode =>
    mode({ consumes: amounts.map((amount, stock) => ({ stock, amount })) });
  const of = (given: Partial<Problem> = {}): Problem =>
    problem({
      stocks: [
        { id: 'cloth', total: 5, source: 'cloth' },
        { id: 'resin', total: 9, source: 'resin' },
      ],
      activities: [
        activity('A', [eats(3, 9), eats(2)], {
          fixed: { kind: 'frozen', start: 0, finish: 0, builders: [] },
        }),
        activity('B', [eats(2), eats(3)]),
      ],
      ...given,
    });
  const using = (a: number, b: number): string[] =>
    kinds(of(), [placed(0, '0-0', [], { mode: a }), placed(1, '0-0', [], { mode: b })]);
  it('are not exceeded by all that is present together', () => {
    expect(using(0, 0)).toEqual([]);
    expect(using(0, 1)).toEqual(['stock']);
    expect(using(1, 1)).toEqual([]);
  });
  it('are not touched by what is absent', () => {
    const branches = [
      { id: 'with', activities: [1], lags: [] },
      { id: 'without', activities: [], lags: [] },
    ];
    const choosy = of({ choices: [{ id: 'c', branches, source: 'c' }] });
    expect(kinds(choosy, [placed(0, '0-0')], [1])).toEqual([]);
  });
});
