import { describe, expect, it } from 'vitest';
import type { Problem } from '../../model/problem.ts';
import { activity, builder, lag, work } from '../../testing/make.ts';
import { always, best, decide, hour, refit, starts } from './testing/hour.ts';

describe('choices and promises', () => {
  it('takes the longer branch where the bond window is shut', () => {
    // The next coat within 5 minutes of the first, set at 0-2; or after abrading (3 minutes, once
    // it has hardened for 10). Ada is away 4-20, so that a coat of 4 minutes begun in the window,
    // 2-7, is not done in one piece. Abrade 20-23 and coat 23-27.
    const calendars = [
      {
        ...always,
        shifts: [
          { start: 0, end: 4 },
          { start: 20, end: 60 },
        ],
      },
    ];
    const of = hour({
      calendars,
      activities: [
        activity('first', [work(2)], {
          fixed: { kind: 'set', start: 0, finish: null, builders: null },
        }),
        activity('abrade', [work(3)]),
        activity('coat', [work(4)]),
      ],
      lags: [lag(0, 2, 0), lag(0, 2, 5, { bound: 'close' }), lag(0, 1, 10), lag(1, 2, 0)],
      choices: [
        {
          id: 'bond',
          branches: [
            { id: 'window', activities: [], lags: [1] },
            { id: 'hard', activities: [1], lags: [2, 3] },
          ],
          source: 'bond',
        },
      ],
    });
    expect(best(of)).toEqual([0, 27, 0, 0]);
    // With Ada there at all times the coat follows at once, 2-6. With the first coat not before 5
    // the window is open when she is back: first 20-22, coat 22-26.
    expect(decide({ ...of, calendars: [always] }).bounds[1].bound).toBe(6);
    const late = activity('first', [work(2)], {
      releases: [{ at: 5, kind: 'boat', source: 'boat' }],
    });
    expect(best({ ...of, activities: [late, ...of.activities.slice(1)] })).toEqual([0, 26, 0, 0]);
  });

  it('lets the boat wait that misses its slot anyway', () => {
    // Two boats of 6 minutes each by Ada. The first hands over at 5 or 30, promised for 5: it is 25
    // late whatever is done. The second is promised for 6 and hands over when done. Late 25 with
    // the second first; the sum of finishes is 18 either way.
    const of = hour({
      activities: [activity('A', [work(6)], { refit: 0 }), activity('B', [work(6)], { refit: 1 })],
      refits: [
        { ...refit, due: 5, handovers: [5, 30] },
        { ...refit, id: 'other', due: 6 },
      ],
    });
    expect(best(of)).toEqual([25, 18, 0, 0]);
    expect(starts(of)).toEqual([6, 0]);
  });

  it('keeps what has happened, its branch and its people', () => {
    // Peeling was done by Ada 0-8 in the branch `peel`, so that `grind` is out; what follows waits.
    const of = hour({
      activities: [
        activity('grind', [work(1)]),
        activity('peel', [work(1)], {
          fixed: { kind: 'frozen', start: -3, finish: 8, builders: [0] },
        }),
        activity('wipe', [work(2)]),
      ],
      choices: [
        {
          id: 'key',
          branches: [
            { id: 'grind', activities: [0], lags: [] },
            { id: 'peel', activities: [1], lags: [] },
          ],
          source: 'key',
        },
      ],
    });
    expect(best(of)).toEqual([0, 10, 0, 0]);
    expect(decide(of).plan?.branches).toEqual([1]);
  });

  it('proves that seven jobs do not fit where six do', () => {
    // Two builders alike, 30 minutes: six jobs of 10 fill them, seven do not fit.
    const of = (jobs: number): Problem =>
      hour({
        horizon: 30,
        calendars: [{ ...always, shifts: [{ start: 0, end: 30 }] }],
        builders: [builder('Ada'), builder('Bo')],
        activities: Array.from({ length: jobs }, (_, a) => activity(`job-${a}`, [work(10)])),
      });
    expect(best(of(6))).toEqual([0, 30, 0, 0]);
    expect(best(of(7))).toBe('infeasible');
  });
});
