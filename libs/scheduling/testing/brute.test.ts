import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Placement, RankValues } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { bruteForce } from './brute.ts';
import { candidates } from './brute/candidates.ts';
import { range } from './draw.ts';
import { activity, builder, lag, mode, plan, problem, work } from './make.ts';
import { plantedProblem, tinyProblem } from './planted.ts';

const day = [
  {
    id: 'day',
    shifts: [
      { start: 5, end: 20 },
      { start: 25, end: 40 },
    ],
    breaks: [{ start: 10, end: 12 }],
    overtime: [],
    source: 'day',
  },
];

/** Every combination of placements, no pruning, judged by the checker alone. */
function exhausted(of: Problem): RankValues | null {
  const all = of.activities.reduce<Placement[][]>(
    (lists, _, a) => {
      const own = candidates(of, a);
      return lists.flatMap((list) => own.map((placement) => [...list, placement]));
    },
    [[]],
  );
  let values = all
    .map((placements) => plan(of, placements))
    .filter((one) => check(of, one).length === 0)
    .map((one) => one.values);
  if (values.length === 0) return null;
  const least = [0, 1, 2, 3].map((rank) => {
    const best = Math.min(...values.map((one) => one[rank]));
    const cap = best + (of.tolerances.at(rank) ?? 0);
    values = values.filter((one) => one[rank] <= cap);
    return best;
  });
  return [least[0], least[1], least[2], least[3]];
}

/** Least lateness and finishes. */
const firstTwo = (of: Problem): readonly number[] | undefined => bruteForce(of)?.least.slice(0, 2);

describe('brute force', { timeout: 60_000 }, () => {
  it('finds the optimum that is plain to see', () => {
    // Two works of ten minutes by one of two: 5-15 and 5-15; with the break observed 12-22 is too long.
    const of = problem({
      horizon: 40,
      calendars: day,
      activities: [activity('A', [work(8)]), activity('B', [work(8)])],
    });
    expect(firstTwo(of)).toEqual([0, 13]);
    const alone = { ...of, builders: of.builders.slice(0, 1) };
    // 5-12 does not fit before the break ends: 5-13 through it (relieved), then 25-33.
    expect(firstTwo({ ...alone })?.at(1)).toBe(33);
    const split = alone.activities.map((one) => ({
      ...one,
      modes: [work(8, { splittable: true })],
    }));
    // Five minutes, break, three minutes: 5-15; then 15-20 and 25-28.
    expect(firstTwo({ ...alone, activities: split })?.at(1)).toBe(28);
    const observed = alone.activities.map((one) => ({
      ...one,
      modes: [work(8, { breaks: 'observed' })],
    }));
    expect(firstTwo({ ...alone, activities: observed })?.at(1)).toBe(33);
  });

  it('trades ranks within the tolerance', () => {
    const refits = [
      { id: 'a', release: 0, due: 10, handovers: [], weight: 1, source: 'a' },
      { id: 'b', release: 0, due: null, handovers: [], weight: 3, source: 'b' },
    ];
    const of = problem({
      horizon: 40,
      calendars: day,
      builders: problem().builders.slice(0, 1),
      refits,
      activities: [activity('A', [work(5)]), activity('B', [work(4)], { refit: 1 })],
    });
    // A first: A 5-10, B 10-14: 10 + 42. B first: B 5-9, A 9-14, four minutes late: 14 + 27.
    expect(firstTwo(of)).toEqual([0, 52]);
    expect(firstTwo({ ...of, tolerances: [3, 0, 0] })).toEqual([0, 52]);
    expect(firstTwo({ ...of, tolerances: [4, 0, 0] })).toEqual([0, 41]);
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
    expect(bruteForce(of)).toMatchObject({ least: [0, 30, 0, 0], plan: { branches: [1] } });
    const short = { ...of, horizon: 29 };
    expect(bruteForce(short)).toBeNull();
  });

  it('asks for overtime and takes the cheaper slot where that is what the ranks want', () => {
    const refits = [{ id: 'a', release: 0, due: 20, handovers: [], weight: 1, source: 'a' }];
    const of = problem({
      horizon: 40,
      calendars: [{ ...day[0], overtime: [{ start: 0, end: 5, cost: 2 }] }],
      builders: [builder('Ada', { cost: 1 })],
      refits,
      activities: [activity('A', [work(6)]), activity('B', [work(11)])],
    });
    // Without overtime 15 minutes before minute 20 are too few for 17; and to be done by 17 takes all five.
    expect(firstTwo(of)).toEqual([0, 17]);
    const slow = { ...of, tolerances: [100, 100, 0] as const };
    // With leave to be late nothing is bought.
    expect(bruteForce(of)?.least[2]).toBe(17 + 2 * 5);
    expect(bruteForce(slow)?.least[2]).toBe(17);
    const crane = (
      start: number,
      cost: number,
      bookBy: number,
    ): Problem['slotLists'][number]['slots'][number] => ({
      start,
      end: start + 4,
      cost,
      bookBy,
    });
    const lifted = problem({
      horizon: 40,
      now: 3,
      slotLists: [
        { id: 'crane', slots: [crane(6, 9, 2), crane(8, 9, 3), crane(20, 1, 9)], source: 'crane' },
      ],
      activities: [activity('lift', [mode({ duration: 4, slots: 0 })])],
    });
    // The first cannot be booked any more.
    expect(bruteForce(lifted)?.least).toEqual([0, 12, 9, 0]);
    const patient: Problem = { ...lifted, tolerances: [0, 12, 0] };
    expect(bruteForce(patient)?.least).toEqual([0, 12, 1, 0]);
  });

  it('agrees with trying everything without pruning', () => {
    let infeasible = 0;
    for (const seed of range(36)) {
      const { problem: planted } = plantedProblem(seed, 2, { day: 5, days: 3 });
      // Some of them are made impossible, or nearly.
      const of =
        seed % 3 === 0
          ? { ...planted, stocks: planted.stocks.map((one) => ({ ...one, total: 2 })) }
          : planted;
      const best = bruteForce(of);
      if (best === null) infeasible++;
      expect(best && best.least, `seed ${seed}`).toEqual(exhausted(of));
    }
    expect(infeasible).toBeGreaterThan(1);
  });

  it('is never worse than the planted plan, and right', () => {
    for (const seed of range(80)) {
      const { problem: of, plan: planted } = tinyProblem(seed, 2 + (seed % 5));
      const best = bruteForce(of);
      if (!best) throw new Error(`seed ${seed} has a plan, and none was found`);
      expect(check(of, best.plan), `seed ${seed}`).toEqual([]);
      expect(best.plan.values[3]).toBe(best.least[3]);
      for (const rank of [0, 1, 2, 3]) {
        expect(best.least[rank], `seed ${seed}`).toBeLessThanOrEqual(planted.values[rank]);
        if (planted.values[rank] > best.least[rank] + (of.tolerances.at(rank) ?? 0)) break;
      }
    }
  });

  it('refuses what is too large', () => {
    expect(() => bruteForce(tinyProblem(1, 7).problem)).toThrow(RangeError);
  });
});
