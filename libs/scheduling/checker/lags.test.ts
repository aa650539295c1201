import { describe, expect, it } from 'vitest';
import type { Problem } from '../model/problem.ts';
import { activity, kinds, lag, mode, placed, problem } from '../testing/make.ts';

describe('lags', () => {
  const tables = [
    {
      id: 't',
      grid: 100,
      values: [50, 250, ...Array.from({ length: 28 }, () => 900)],
      source: 't',
    },
  ];
  const waits = (bound: 'open' | 'close'): Problem =>
    problem({
      activities: [
        activity('A', [mode({ duration: 10 })]),
        activity('B', [mode({ duration: 10 })]),
      ],
      tables,
      lags: [lag(0, 1, 0, { fromAnchor: 'start', bound, fn: { kind: 'table', table: 0 } })],
    });
  it('open with the later grid value between grid points', () => {
    expect(kinds(waits('open'), [placed(0, '100-110'), placed(1, '250-260')])).toEqual([]);
    expect(kinds(waits('open'), [placed(0, '100-110'), placed(1, '249-259')])).toEqual([
      'lag-open',
    ]);
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
  it('hold only in the branch taken, and its activities are done', () => {
    const ten = [mode({ duration: 10 })];
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
  });
});
