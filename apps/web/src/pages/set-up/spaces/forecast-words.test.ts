import { describe, expect, it } from 'vitest';
import { type ClimateHour, least, stretchesOf } from './forecast-words.ts';

const known = { cold: 0, expected: 0, warm: 0 };
const hour = (at: number, some: Partial<ClimateHour>): ClimateHour => ({
  when: { at: `2026-12-01T0${String(at)}:00:00Z`, local: '' },
  air: known,
  surface: known,
  humidity: null,
  dewPointC: null,
  marginC: null,
  leastMarginC: null,
  assumed: false,
  verdict: null,
  reasons: [],
  mouldingShop: [],
  ...some,
});

describe('a forecast in words', () => {
  it('finds the first of the least, and nothing where nothing is known', () => {
    const hours = [
      hour(0, { humidity: 70 }),
      hour(1, {}),
      hour(2, { humidity: 55 }),
      hour(3, { humidity: 55 }),
    ];
    expect(least(hours, ({ humidity }) => humidity)).toEqual({
      at: '2026-12-01T02:00:00Z',
      value: 55,
    });
    expect(least(hours, ({ dewPointC }) => dewPointC)).toBeUndefined();
  });

  it('joins hours whose reason differs in its numbers only', () => {
    const cold = (value: string) => ({
      verdict: 'refuse' as const,
      reasons: [`${value} °C is too cold`],
    });
    const hours = [
      hour(0, cold('7.5')),
      hour(1, cold('8')),
      hour(2, { verdict: 'fine' }),
      hour(3, { verdict: 'refuse', reasons: ['too damp'] }),
      hour(4, cold('7')),
      // An hour is missing between.
      hour(6, cold('7')),
    ];
    const hourAt = (ms: number): number => new Date(ms).getUTCHours();
    expect(
      stretchesOf(hours).map(({ from, to, kind }) => [hourAt(from), hourAt(to), kind]),
    ).toEqual([
      [0, 2, 'refuse'],
      [2, 3, 'fine'],
      [3, 4, 'refuse'],
      [4, 5, 'refuse'],
      [6, 7, 'refuse'],
    ]);
  });

  it('says nothing of hours without a verdict', () => {
    expect(stretchesOf([hour(0, {}), hour(1, {})])).toEqual([]);
  });
});
