import { describe, expect, it } from 'vitest';
import type { Hold, HoldEnd, Problem } from '../model/problem.ts';
import { activity, kinds, mode, placed, plan, problem } from '../testing/make.ts';
import { check } from './check.ts';

const ten = mode({ duration: 10 });
const after = (minutes: number): HoldEnd => ({
  kind: 'lag',
  fns: [{ kind: 'constant', minutes }],
});
const until = (anchor: 'start' | 'finish', of = 1): HoldEnd => ({
  kind: 'activity',
  activity: of,
  anchor,
});
const hold = (ends: readonly HoldEnd[], given: Partial<Hold> = {}): Hold => ({
  id: 'mould',
  activity: 0,
  resource: 0,
  amount: 1,
  ends,
  source: 'mould',
  ...given,
});
const mould = (capacity: number) => ({
  id: 'mould',
  steps: [{ from: 0, capacity }],
  calendar: null,
  source: 'mould',
});
/** A lays up in the mould, B demoulds, C wants it. */
const of = (holds: readonly Hold[], given: Partial<Problem> = {}): Problem =>
  problem({
    resources: [mould(1)],
    activities: [
      activity('A', [ten, ten]),
      activity('B', [ten]),
      activity('C', [
        mode({ duration: 10, demands: [{ resource: 0, amount: 1, keptWhilePaused: false }] }),
      ]),
    ],
    holds,
    ...given,
  });
const wanted = (
  problem: Problem,
  at: number,
  branches: readonly number[] = [],
  way = 0,
): string[] => {
  const all = [
    placed(0, '100-110', [], { mode: way }),
    placed(1, '200-210'),
    placed(2, `${at}-${at + 10}`),
  ];
  return kinds(
    problem,
    branches[0] === 1 ? all.filter(({ activity: a }) => a !== 1) : all,
    branches,
  );
};

describe('holds', () => {
  it.each([
    ['from the start', [after(50)], 90, 91],
    ['by a lag of the finish', [after(50)], 160, 159],
    ['until another starts', [until('start')], 200, 199],
    ['until another finishes', [until('finish')], 210, 209],
    ['until the latest of all', [until('start'), after(120), after(5)], 230, 229],
    ['until the own finish at least', [until('start', 0), after(-5)], 110, 109],
  ])('%s', (_, ends, free, taken) => {
    expect(wanted(of([hold(ends)]), free)).toEqual([]);
    expect(wanted(of([hold(ends)]), taken)).toEqual(['hold']);
  });

  it('differ by the mode of the holder, and read a table as an opening', () => {
    const values = [0, 150, ...Array.from({ length: 28 }, () => 300)];
    const byMode: HoldEnd = {
      kind: 'lag',
      fns: [
        { kind: 'constant', minutes: 10 },
        { kind: 'table', table: 0 },
      ],
    };
    const table = of([hold([byMode])], { tables: [{ id: 't', grid: 100, values, source: 't' }] });
    expect(wanted(table, 120, [], 0)).toEqual([]);
    expect(wanted(table, 119, [], 0)).toEqual(['hold']);
    expect(wanted(table, 300, [], 1)).toEqual([]);
    expect(wanted(table, 299, [], 1)).toEqual(['hold']);
  });

  it('do not wait for what is absent', () => {
    const branches = [
      { id: 'with', activities: [1], lags: [] },
      { id: 'without', activities: [], lags: [] },
    ];
    const choosy = of([hold([until('finish'), after(20)])], {
      choices: [{ id: 'c', branches, source: 'c' }],
    });
    expect(wanted(choosy, 209, [0])).toEqual(['hold']);
    expect(wanted(choosy, 130, [1])).toEqual([]);
    expect(wanted(choosy, 129, [1])).toEqual(['hold']);
  });

  it('come on top of demands, and nothing holds what holds nothing', () => {
    const [, b, c] = of([]).activities;
    const both = of([hold([after(50)])], {
      activities: [activity('A', [{ ...c.modes[0] }]), b, c],
    });
    expect(wanted(both, 500)).toEqual(['hold']);
    expect(wanted({ ...both, resources: [mould(2)] }, 500)).toEqual([]);
    expect(wanted({ ...both, holds: [hold([after(50)], { amount: 0 })] }, 120)).toEqual([]);
  });

  it('are kept by what has happened, and by work of no time', () => {
    const [, b, c] = of([]).activities;
    const fixed = { kind: 'frozen', start: 100, finish: 110, builders: [] } as const;
    const happened = of([hold([after(50)])], {
      activities: [activity('A', [ten], { fixed }), b, c],
    });
    expect(wanted(happened, 160)).toEqual([]);
    expect(wanted(happened, 159)).toEqual(['hold']);
    const word = of([hold([after(50)])], { activities: [activity('A', [mode()]), b, c] });
    const all = (at: number): string[] =>
      kinds(word, [placed(0, '100-100'), placed(1, '0-10'), placed(2, `${at}-${at + 10}`)]);
    expect(all(150)).toEqual([]);
    expect(all(149)).toEqual(['hold']);
  });

  it('are named where one alone is too much, else the resource', () => {
    const named = (problem: Problem): unknown[] =>
      check(
        problem,
        plan(problem, [placed(0, '100-110'), placed(1, '200-210'), placed(2, '120-130')]),
      ).map(({ kind, constraint, activities }) => [kind, constraint, activities]);
    const first = hold([after(50)], { id: 'floor', amount: 1 });
    expect(named(of([hold([after(200)], { activity: 1 }), first]))).toEqual([
      ['hold', { kind: 'hold', hold: 1 }, [2, 0]],
    ]);
    const holding = ['hold', { kind: 'hold', hold: 0 }, [0]];
    expect(named(of([first, hold([after(50)])]))).toEqual([
      holding,
      ['resource', { kind: 'resource', resource: 0 }, [2, 0]],
      holding,
    ]);
  });
});
