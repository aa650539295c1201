import { describe, expect, it } from 'vitest';
import type { Placement } from '../model/plan.ts';
import type { Anchor, LagFunctions, Problem } from '../model/problem.ts';
import { activity, kinds, lag, mode, placed, plan, problem } from '../testing/make.ts';
import { check } from './check.ts';

/** Work before the beginning. */
const past = (index: number, start: number, end: number): Placement =>
  placed(index, '0-1', [], { start, finish: end, segments: [{ start, end }] });

describe('lags', () => {
  const tables = [
    {
      id: 't',
      grid: 100,
      values: [50, 250, ...Array.from({ length: 28 }, () => 900)],
      source: 't',
    },
  ];
  const ten = [mode({ duration: 10 })];
  const fns: LagFunctions = [{ kind: 'table', table: 0 }];
  const waits = (bound: 'open' | 'close'): Problem =>
    problem({
      activities: [activity('A', ten), activity('B', ten)],
      tables,
      lags: [lag(0, 1, 0, { fromAnchor: 'start', bound, fns })],
    });
  it('open with the later grid value between grid points', () => {
    expect(kinds(waits('open'), [placed(0, '100-110'), placed(1, '250-260')])).toEqual([]);
    expect(kinds(waits('open'), [placed(0, '100-110'), placed(1, '249-259')])).toEqual([
      'lag-open',
    ]);
    expect(kinds(waits('open'), [placed(0, '101-111'), placed(1, '900-910')])).toEqual([]);
    expect(kinds(waits('open'), [placed(0, '101-111'), placed(1, '899-909')])).toEqual([
      'lag-open',
    ]);
  });
  it('close with the earlier grid value between grid points', () => {
    expect(kinds(waits('close'), [placed(0, '199-209'), placed(1, '250-260')])).toEqual([]);
    expect(kinds(waits('close'), [placed(0, '199-209'), placed(1, '251-261')])).toEqual([
      'lag-close',
    ]);
    expect(kinds(waits('close'), [placed(0, '200-210'), placed(1, '251-261')])).toEqual([]);
  });
  it('take the function of the mode of the activity they start from', () => {
    const byMode: LagFunctions = [
      { kind: 'constant', minutes: 5 },
      { kind: 'constant', minutes: 20 },
    ];
    const of = problem({
      activities: [activity('A', [...ten, ...ten]), activity('B', [...ten, ...ten])],
      lags: [lag(0, 1, 0), lag(0, 1, 0, { fns: byMode, id: 'by mode' })],
    });
    const done = (own: number, other: number, at: number): string[] =>
      kinds(of, [
        placed(0, '0-10', [], { mode: own }),
        placed(1, `${at}-${at + 10}`, [], { mode: other }),
      ]);
    expect(done(0, 1, 15)).toEqual([]);
    expect(done(0, 1, 14)).toEqual(['lag-open']);
    expect(done(1, 0, 30)).toEqual([]);
    expect(done(1, 0, 29)).toEqual(['lag-open']);
  });
  it.each([
    ['start', 'start', 120, 119],
    ['start', 'finish', 110, 109],
    ['finish', 'start', 130, 129],
    ['finish', 'finish', 120, 119],
  ] as const)('bind %s and %s, and are named', (fromAnchor: Anchor, toAnchor: Anchor, ok, not) => {
    const of = problem({
      activities: [activity('A', ten), activity('B', ten)],
      lags: [lag(1, 0, 0, { id: 'x', bound: 'close' }), lag(0, 1, 20, { fromAnchor, toAnchor })],
    });
    const found = (at: number) =>
      check(
        { ...of, lags: [{ ...of.lags[0], fns: [{ kind: 'constant', minutes: 999 }] }, of.lags[1]] },
        plan(of, [placed(0, '100-110'), placed(1, `${at}-${at + 10}`)]),
      );
    expect(found(ok)).toEqual([]);
    expect(found(not)).toMatchObject([
      { kind: 'lag-open', activities: [0, 1], constraint: { kind: 'lag', lag: 1 } },
    ]);
  });
  it('bind what has happened', () => {
    const of = problem({
      activities: [
        activity('A', ten, { fixed: { kind: 'frozen', start: -20, finish: -10, builders: [] } }),
        activity('B', ten),
      ],
      lags: [lag(0, 1, 20)],
    });
    expect(kinds(of, [past(0, -20, -10), placed(1, '10-20')])).toEqual([]);
    expect(kinds(of, [past(0, -20, -10), placed(1, '9-19')])).toEqual(['lag-open']);
  });
  it('hold only in the branch taken, and its activities are done', () => {
    const of = problem({
      activities: [activity('A', ten), activity('B', ten), activity('C', ten)],
      lags: [lag(0, 1, 100), lag(0, 1, 50)],
      choices: [
        {
          id: 'bond',
          source: 'bond',
          branches: [
            { id: 'inside', activities: [], lags: [0] },
            { id: 'prepare', activities: [2], lags: [1] },
          ],
        },
      ],
    });
    const both = [placed(0, '0-10'), placed(1, '60-70')];
    const prepared = [...both, placed(2, '20-30')];
    expect(kinds(of, prepared, [1])).toEqual([]);
    expect(kinds(of, both, [0])).toEqual(['lag-open']);
    expect(kinds(of, both, [1])).toEqual(['missing']);
    expect(kinds(of, prepared, [0])).toEqual(['absent', 'lag-open']);
    expect(kinds(of, both, [2])).toEqual(['branch']);
    expect(kinds(of, both, [])).toEqual(['branch']);
    expect(kinds(of, both, [0, 0])).toEqual(['branch', 'lag-open']);
    const choice = { kind: 'choice', choice: 0 };
    for (const [placements, branch] of [
      [both, 1],
      [both, 2],
    ] as const)
      expect(check(of, plan(of, placements, [branch]))).toMatchObject([{ constraint: choice }]);
  });
  it('let a choice be of nothing but lags', () => {
    const of = problem({
      activities: [activity('A', ten), activity('B', ten)],
      lags: [lag(0, 1, 0), lag(1, 0, 0)],
      choices: [
        {
          id: 'order',
          source: 'order',
          branches: [
            { id: 'A first', activities: [], lags: [0] },
            { id: 'B first', activities: [], lags: [1] },
          ],
        },
      ],
    });
    const all = [placed(0, '0-10'), placed(1, '10-20')];
    expect(kinds(of, all, [0])).toEqual([]);
    expect(kinds(of, all, [1])).toEqual(['lag-open']);
  });
});
