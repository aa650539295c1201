import { describe, expect, it } from 'vitest';
import { activity, lag, mode, problem } from '../../testing/make.ts';
import type { LagFunctions, Problem } from '../problem.ts';
import { validate } from '../validate.ts';

const found = (given: Partial<Problem>): string[] =>
  validate(problem(given)).map(({ code, path }) => `${code} ${path}`);
const cases = (list: readonly (readonly [string, Partial<Problem>, readonly string[]])[]): void => {
  it.each(list)('%s', (_, given, expected) => {
    expect(found(given)).toEqual(expected);
  });
};

const ten = mode({ duration: 10 });
const minutes = (...all: readonly number[]): LagFunctions =>
  all.map((each) => ({ kind: 'constant', minutes: each }) as const);

describe('functions by mode', () => {
  const by = (fns: LagFunctions): Partial<Problem> => ({
    activities: [activity('A', [ten, ten]), activity('B', [ten])],
    lags: [lag(0, 1, 0, { fns })],
  });
  cases([
    ['one for all', by(minutes(1)), []],
    ['one for each', by(minutes(1, 2)), []],
    ['one too many', by(minutes(1, 2, 3)), ['input.field lags[0].fns']],
    ['none', by([]), ['input.field lags[0].fns']],
  ]);

  /** B follows A by `opens`, and its start is no later than `closes` after A's start. */
  const between = (opens: LagFunctions, closes: LagFunctions): Partial<Problem> => ({
    activities: [
      activity('A', [mode({ duration: 10 }), mode({ duration: 20 })]),
      activity('B', [ten]),
    ],
    lags: [
      lag(0, 1, 0, { fns: opens }),
      lag(0, 1, 0, { id: 'close', fromAnchor: 'start', bound: 'close', fns: closes }),
    ],
  });
  cases([
    ['a circle in no mode', between(minutes(5), minutes(15)), []],
    ['a circle in every mode', between(minutes(5), minutes(14)), ['yard.cycle lags']],
    ['the least of the openings counts', between(minutes(9, 5), minutes(15)), []],
    ['not less than that', between(minutes(9, 5), minutes(14)), ['yard.cycle lags']],
    ['the most of the closings counts', between(minutes(5), minutes(2, 15)), []],
    ['not more than that', between(minutes(5), minutes(2, 14)), ['yard.cycle lags']],
    [
      'a table in one of the modes is not looked at',
      {
        ...between(minutes(5), [...minutes(14), { kind: 'table', table: 0 }]),
        tables: [{ id: 't', grid: 2880, values: [0, 0], source: 't' }],
      },
      [],
    ],
    [
      'a table is not looked at',
      {
        ...between(minutes(5), [{ kind: 'table', table: 0 }]),
        tables: [{ id: 't', grid: 2880, values: [0, 0], source: 't' }],
      },
      [],
    ],
  ]);

  it('takes work that pauses by a resource as long as it may be', () => {
    const held = (calendar: number | null, splittable: boolean): Partial<Problem> => ({
      resources: [{ id: 'tool', steps: [{ from: 0, capacity: 1 }], calendar, source: 'tool' }],
      activities: [
        activity('A', [
          mode({
            duration: 10,
            splittable,
            demands: [{ resource: 0, amount: 1, keptWhilePaused: false }],
          }),
        ]),
      ],
      lags: [lag(0, 0, 11, { fromAnchor: 'start', toAnchor: 'finish' })],
    });
    expect(found(held(0, true))).toEqual([]);
    expect(found(held(0, false))).toEqual(['yard.cycle lags']);
    expect(found(held(null, true))).toEqual(['yard.cycle lags']);
  });
});
