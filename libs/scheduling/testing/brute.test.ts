import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import { read } from '../checker/reading.ts';
import type { Placement } from '../model/plan.ts';
import { bruteForce } from './brute.ts';
import { candidates } from './candidates.ts';
import { range } from './draw.ts';
import { activity, lag, mode, plan, problem, work } from './make.ts';
import { plantedProblem, tinyProblem } from './planted.ts';

const day = [
  {
    id: 'day',
    shifts: [
      { start: 5, end: 20 },
      { start: 25, end: 40 },
    ],
    breaks: [{ start: 10, end: 12 }],
  },
];

/** Every combination of placements, no pruning, judged by the checker alone. */
function exhausted(of: ReturnType<typeof problem>): [number, number] | null {
  const reading = read(of, { placements: [], branches: [], finishes: [], values: [0, 0] });
  const all = of.activities.reduce<Placement[][]>(
    (lists, _, a) => {
      const own = candidates(reading, a);
      return lists.flatMap((list) => own.map((placement) => [...list, placement]));
    },
    [[]],
  );
  const values = all
    .map((placements) => plan(of, placements))
    .filter((one) => check(of, one).length === 0)
    .map((one) => one.values);
  if (values.length === 0) return null;
  const late = Math.min(...values.map(([lateness]) => lateness));
  const kept = values.filter(([lateness]) => lateness <= late + of.tolerances[0]);
  return [late, Math.min(...kept.map(([, finishes]) => finishes))];
}

describe('brute force', { timeout: 60_000 }, () => {
  it('finds the optimum that is plain to see', () => {
    // Two works of ten minutes by one of two: 5-15 and 5-15; with the break observed 12-22 is too long.
    const of = problem({
      horizon: 40,
      calendars: day,
      activities: [activity('A', [work(8)]), activity('B', [work(8)])],
    });
    expect(bruteForce(of)).toMatchObject({ lateness: 0, finishes: 13 });
    const alone = { ...of, builders: of.builders.slice(0, 1) };
    // 5-12 does not fit before the break ends: 5-13 through it (relieved), then 25-33.
    expect(bruteForce({ ...alone })).toMatchObject({ finishes: 33 });
    const split = alone.activities.map((one) => ({
      ...one,
      modes: [work(8, { splittable: true })],
    }));
    // Five minutes, break, three minutes: 5-15; then 15-20 and 25-28.
    expect(bruteForce({ ...alone, activities: split })).toMatchObject({ finishes: 28 });
    const observed = alone.activities.map((one) => ({
      ...one,
      modes: [work(8, { breaks: 'observed' })],
    }));
    expect(bruteForce({ ...alone, activities: observed })).toMatchObject({ finishes: 33 });
  });

  it('trades ranks within the tolerance', () => {
    const refits = [
      { id: 'a', release: 0, due: 10, weight: 1, source: 'a' },
      { id: 'b', release: 0, due: null, weight: 3, source: 'b' },
    ];
    const of = problem({
      horizon: 40,
      calendars: day,
      builders: problem().builders.slice(0, 1),
      refits,
      activities: [activity('A', [work(5)]), activity('B', [work(4)], { refit: 1 })],
    });
    // A first: A 5-10, B 10-14: 10 + 42. B first: B 5-9, A 9-14, four minutes late: 14 + 27.
    expect(bruteForce(of)).toMatchObject({ lateness: 0, finishes: 52 });
    expect(bruteForce({ ...of, tolerances: [3, 0] })).toMatchObject({ lateness: 0, finishes: 52 });
    expect(bruteForce({ ...of, tolerances: [4, 0] })).toMatchObject({ lateness: 0, finishes: 41 });
  });

  it('takes the better branch and finds nothing where there is nothing', () => {
    const ten = [mode({ duration: 10 })];
    const of = problem({
      horizon: 40,
      activities: [activity('A', ten), activity('B', ten), activity('C', ten)],
      lags: [lag(0, 1, 15), lag(0, 2, 0), lag(2, 1, 0)],
      choices: [
        {
          id: 'c',
          source: 'c',
          branches: [
            { id: 'wait', activities: [], lags: [0] },
            { id: 'prepare', activities: [2], lags: [] },
          ],
        },
      ],
    });
    expect(bruteForce(of)).toMatchObject({ finishes: 30, plan: { branches: [1] } });
    const short = { ...of, horizon: 29 };
    expect(bruteForce(short)).toBeNull();
  });

  it('agrees with trying everything without pruning', () => {
    for (const seed of range(40)) {
      const { problem: of } = plantedProblem(seed, 2, { day: 6, days: 3 });
      const best = bruteForce(of);
      expect(best && [best.lateness, best.finishes], `seed ${seed}`).toEqual(exhausted(of));
    }
  });

  it('is never worse than the planted plan, and right', () => {
    for (const seed of range(80)) {
      const { problem: of, plan: planted } = tinyProblem(seed, 2 + (seed % 5));
      const best = bruteForce(of);
      if (!best) throw new Error(`seed ${seed} has a plan, and none was found`);
      expect(check(of, best.plan), `seed ${seed}`).toEqual([]);
      expect(best.plan.values[1]).toBe(best.finishes);
      expect(best.lateness).toBeLessThanOrEqual(planted.values[0]);
      if (planted.values[0] <= best.lateness + of.tolerances[0])
        expect(best.finishes).toBeLessThanOrEqual(planted.values[1]);
    }
  });

  it('refuses what is too large', () => {
    expect(() => bruteForce(tinyProblem(1, 7).problem)).toThrow(RangeError);
  });
});
