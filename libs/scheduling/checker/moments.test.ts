import { describe, expect, it } from 'vitest';
import type { Forbidden, Release } from '../model/problem.ts';
import {
  activity,
  builder,
  kinds,
  mode,
  placed,
  plan,
  problem,
  single,
  work,
} from '../testing/make.ts';
import { check } from './check.ts';

const from = (at: number): Release => ({ at, kind: 'delivery', source: 'truck' });
const never = (
  anchor: Forbidden['anchor'],
  ...spans: readonly (readonly [number, number])[]
): Forbidden => ({
  anchor,
  spans: spans.map(([start, end]) => ({ start, end })),
  kind: 'dew',
  source: 'dew',
});

describe('moments', () => {
  it('hold release, horizon, forbidden starts and finishes to the minute', () => {
    const way = mode({
      duration: 10,
      forbidden: [never('start', [20, 25], [50, 60]), never('finish', [81, 82])],
    });
    const of = problem({
      horizon: 100,
      activities: [activity('A', [way], { releases: [from(40), from(41)] })],
    });
    const starting = (start: number): string[] => kinds(of, [placed(0, `${start}-${start + 10}`)]);
    expect([40, 41, 49, 50, 59, 60, 70, 71, 72, 90, 91].map(starting)).toEqual([
      ['release'],
      [],
      [],
      ['forbidden-start'],
      ['forbidden-start'],
      [],
      [],
      ['forbidden-finish'],
      [],
      [],
      ['horizon'],
    ]);
    expect(kinds(single(mode({ duration: 10 })), [placed(0, '0-10')])).toEqual([]);
    expect(kinds(single(mode({ duration: 10 })), [placed(0, '-1-9')])).toEqual(['horizon']);
  });

  it('name the release and the list that were not kept', () => {
    const forbidden = [never('start', [0, 9]), never('start', [30, 31]), never('finish', [40, 41])];
    const of = problem({
      activities: [
        activity('A', [mode(), mode({ duration: 10, forbidden })], {
          releases: [from(20), from(31), from(25)],
        }),
      ],
    });
    expect(
      check(of, plan(of, [placed(0, '30-40', [], { mode: 1 })])).map((found) => found.constraint),
    ).toEqual([
      { kind: 'release', activity: 0, release: 1 },
      { kind: 'forbidden', activity: 0, mode: 1, forbidden: 1 },
      { kind: 'forbidden', activity: 0, mode: 1, forbidden: 2 },
    ]);
  });

  it('count the clean-down to the horizon', () => {
    const of = { ...single(work(10, { cleanDown: 5 })), horizon: 600 };
    expect(kinds(of, [placed(0, '585-595', [0])])).toEqual([]);
    expect(kinds(of, [placed(0, '586-596', [0])])).toEqual(['horizon']);
  });
});

describe('frozen and set work', () => {
  const hard = work(10, { forbidden: [never('start', [0, 2000]), never('finish', [0, 2000])] });
  const happened = { kind: 'frozen', start: 300, finish: 480, builders: [0] } as const;
  it('is excused from calendar, crew, duration, release and forbidden moments', () => {
    const of = problem({
      builders: [builder('Ada', { abilities: [] }), builder('Bo')],
      activities: [activity('A', [hard], { fixed: happened, releases: [from(1000)] })],
    });
    expect(kinds(of, [placed(0, '300-480', [0])])).toEqual([]);
    expect(kinds(of, [placed(0, '300-481', [0])])).toEqual(['fixed']);
    expect(kinds(of, [placed(0, '301-480', [0])])).toEqual(['fixed']);
    expect(kinds(of, [placed(0, '300-480', [1])])).toEqual(['fixed']);
    expect(kinds(of, [placed(0, '300-480', [0, 0])])).toEqual(['fixed']);
    expect(kinds(of, [placed(0, '300-400 420-480', [0])])).toEqual(['segments']);
    expect(kinds(of, [placed(0, '300-480', [0], { overtime: true })])).toEqual(['overtime']);
  });
  it('may have begun before the beginning, and ends by the horizon without clean-down', () => {
    const long = { ...happened, start: -50, finish: 480 };
    const of = single(work(10, { cleanDown: 30, splittable: true }), long);
    expect(kinds(of, [placed(0, '-50-480', [0])])).toEqual([]);
    expect(kinds({ ...of, horizon: 480 }, [placed(0, '-50-480', [0])])).toEqual([]);
    expect(kinds({ ...of, horizon: 479 }, [placed(0, '-50-480', [0])])).toEqual(['horizon']);
  });
  it('occupies its people until its finish', () => {
    const of = problem({
      activities: [
        activity('A', [{ ...hard, cleanDown: 30 }], { fixed: happened }),
        activity('B', [work(10)]),
      ],
    });
    const frozen = placed(0, '300-480', [0]);
    expect(kinds(of, [frozen, placed(1, '480-490', [0])])).toEqual([]);
    expect(kinds(of, [frozen, placed(1, '479-489', [0])])).toEqual(['shift', 'crew-twice']);
  });
  it('is done whatever is chosen', () => {
    const branches = [
      { id: 'a', activities: [0], lags: [] },
      { id: 'b', activities: [], lags: [] },
    ];
    const of = problem({
      activities: [activity('A', [hard], { fixed: happened })],
      choices: [{ id: 'c', branches, source: 'c' }],
    });
    expect(kinds(of, [placed(0, '300-480', [0])], [0])).toEqual([]);
    expect(check(of, plan(of, [], [1]))).toMatchObject([
      { kind: 'fixed', constraint: { kind: 'fixed', activity: 0 } },
    ]);
  });
  it('keeps all rules where it is the foreman who set it', () => {
    const wish = { kind: 'set', start: 470, finish: null, builders: [1] } as const;
    expect(kinds(single(work(10), wish), [placed(0, '470-480', [1])])).toEqual(['shift']);
    const set = single(work(10), { ...wish, start: 480 });
    expect(kinds(set, [placed(0, '480-490', [1])])).toEqual([]);
    expect(kinds(set, [placed(0, '480-490', [0])])).toEqual(['fixed']);
    expect(kinds(set, [placed(0, '481-491', [1])])).toEqual(['fixed']);
    const ending = single(work(10), { ...wish, start: null, finish: 490 });
    expect(kinds(ending, [placed(0, '480-490', [1])])).toEqual([]);
    expect(kinds(ending, [placed(0, '481-491', [1])])).toEqual(['fixed']);
    expect(
      check(ending, plan(ending, [placed(0, '481-491', [1])])).map((found) => found.constraint),
    ).toEqual([{ kind: 'fixed', activity: 0 }]);
    const two = single(work(10, { crew: [{ skill: 0, minLevel: 1, count: 2 }] }), {
      ...wish,
      start: 480,
      builders: [1, 0],
    });
    expect(kinds(two, [placed(0, '480-485', [0, 1])])).toEqual([]);
    expect(kinds(single(hard, { ...wish, start: 480 }), [placed(0, '480-490', [1])])).toEqual([
      'forbidden-start',
      'forbidden-finish',
    ]);
  });
});
