import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { DomainError } from '#kernel/error.ts';

import { climateSeries, type Climate, type WallClock } from './climate.ts';
import { outdoorOf, type OutdoorReading } from './outdoor.ts';

const ORIGIN = '2026-11-02T00:00:00Z'; // a Monday
const utc: WallClock = (minute) => ({
  weekday: (Math.floor(minute / 1440) % 7) + 1,
  minuteOfDay: minute % 1440,
});

/** Readings every hour from so many hours after the origin. */
const hourly = (from: number, celsius: readonly number[]): OutdoorReading[] =>
  celsius.map((c, k) => ({
    at: new Date(Date.parse(ORIGIN) + (from + k) * 3_600_000).toISOString(),
    celsius: c,
  }));

const follow = (lagHours: number, offsetC = 0): Climate => ({
  kind: 'outdoors',
  lagHours,
  offsetC,
});

describe('heated space', () => {
  const climate: Climate = {
    kind: 'heated',
    setPoints: [
      { weekdays: [1, 2, 3, 4, 5], from: '06:00', celsius: 20 },
      { weekdays: [1, 2, 3, 4, 5], from: '18:30', celsius: 15 },
    ],
  };

  it('holds the set-point that began last, over the weekend too', () => {
    const series = climateSeries(climate, [], utc, ORIGIN, 7 * 1440);
    const at = (day: number, hour: number): number => series.celsius[day * 144 + hour * 6];
    expect([at(0, 0), at(0, 6), at(0, 18), at(0, 19), at(1, 3), at(5, 12), at(6, 23)]).toEqual([
      15, 20, 20, 15, 15, 15, 15,
    ]);
    expect(series.assumed).toEqual([]);
  });

  it('refuses a schedule without a set-point, or with a time that is none', () => {
    const none: Climate = { kind: 'heated', setPoints: [] };
    const odd: Climate = {
      kind: 'heated',
      setPoints: [{ weekdays: [1], from: 'six', celsius: 20 }],
    };
    for (const bad of [none, odd]) {
      expect(() => climateSeries(bad, [], utc, ORIGIN, 60)).toThrow(/heating schedule/);
    }
  });
});

describe('space that follows the outdoors', () => {
  it('decays to a new outdoor temperature with its time constant', () => {
    // Newton's law of cooling: after t hours exp(-t / tau) of a step is left. The step is a
    // ramp of one hour, whose response is (tau / 1 h)(exp(1 h / tau) - 1) times as much.
    const outdoor = hourly(-100, [
      ...new Array<number>(101).fill(20),
      ...new Array<number>(60).fill(10),
    ]);
    const series = climateSeries(follow(6), outdoor, utc, ORIGIN, 48 * 60, 1);
    const left = (hour: number): number =>
      10 + 10 * Math.exp(-hour / 6) * 6 * (Math.exp(1 / 6) - 1);
    for (const hour of [1, 6, 12, 30]) {
      expect(series.celsius[hour * 60]).toBeCloseTo(left(hour + 0.5 / 60), 4);
    }
  });

  it('trails a steady ramp by the time constant', () => {
    const ramp = hourly(
      -200,
      Array.from({ length: 300 }, (_, k) => (k - 200) * 0.1),
    );
    const series = climateSeries(follow(8), ramp, utc, ORIGIN, 24 * 60);
    // In the middle of the step from 20:00 to 20:10 the outdoors is 2.0083; 8 h behind is 0.8 less.
    expect(series.celsius[120]).toBeCloseTo(20.0833 * 0.1 - 0.8, 3);
  });

  it('damps and delays a daily swing as a first-order body does', () => {
    // Gain 1 / sqrt(1 + (w tau)^2) with w = 2 pi / 24 h: for tau = 24/(2 pi) h it is 1/sqrt 2, 3 h late.
    const swing = hourly(
      -240,
      Array.from({ length: 400 }, (_, k) => 10 * Math.sin((2 * Math.PI * k) / 24)),
    );
    const series = climateSeries(follow(24 / (2 * Math.PI)), swing, utc, ORIGIN, 96 * 60);
    const values = Array.from(series.celsius).slice(0, 144);
    // Hourly chords of the sine cost up to 1 % of its height.
    expect(Math.max(...values)).toBeGreaterThan(10 / Math.SQRT2 - 0.1);
    expect(Math.max(...values)).toBeLessThan(10 / Math.SQRT2);
    expect(Math.abs(values.indexOf(Math.max(...values)) - 9 * 6)).toBeLessThanOrEqual(1);
  });

  it('is the outdoors itself without a lag, plus the offset, whatever the step', () => {
    const outdoor = hourly(0, [4, 10, 7, 7, 1]);
    const series = climateSeries(follow(0, 2), outdoor, utc, ORIGIN, 240, 30);
    expect(Array.from(series.celsius)).toEqual([7.5, 10.5, 11.25, 9.75, 9, 9, 7.5, 4.5]);
    expect(series.assumed).toEqual([]);
  });

  it('stays between the extremes of what it has seen', () => {
    const tables = fc.array(fc.integer({ min: -10, max: 35 }), { minLength: 1, maxLength: 72 });
    const lags = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(tables, lags, fc.constantFrom(1, 10, 30, 60), (celsius, lagHours, step) => {
        const series = climateSeries(
          follow(lagHours),
          hourly(-10, celsius),
          utc,
          ORIGIN,
          3000,
          step,
        );
        const seen = Array.from(series.celsius);
        expect(Math.min(...seen)).toBeGreaterThanOrEqual(Math.min(...celsius) - 1e-9);
        expect(Math.max(...seen)).toBeLessThanOrEqual(Math.max(...celsius) + 1e-9);
      }),
    );
  });

  it('does not move with the step', () => {
    const outdoor = hourly(
      -48,
      Array.from({ length: 96 }, (_, k) => (k * 7) % 13),
    );
    const fine = climateSeries(follow(5), outdoor, utc, ORIGIN, 600, 10);
    const coarse = climateSeries(follow(5), outdoor, utc, ORIGIN, 600, 60);
    const mean = (k: number): number =>
      Array.from(fine.celsius)
        .slice(k * 6, k * 6 + 6)
        .reduce((sum, c) => sum + c / 6, 0);
    Array.from(coarse.celsius).forEach((c, k) => {
      expect(c).toBeCloseTo(mean(k), 2);
    });
  });

  it('says where it had no outdoor table', () => {
    const outdoor = hourly(1, new Array<number>(30).fill(5));
    expect(climateSeries(follow(1), outdoor, utc, ORIGIN, 40 * 60).assumed).toEqual([
      { start: 0, end: 60 },
      { start: 1800, end: 2400 },
    ]);
  });
});

describe('outdoor table', () => {
  const day = Array.from({ length: 25 }, (_, k) => k);

  it('is linear between readings and repeats the same hour of the nearest day outside', () => {
    const outdoor = outdoorOf(hourly(0, [...day, 100, 101]), Date.parse(ORIGIN));
    expect(outdoor.celsius(90)).toBe(1.5);
    // The last known day runs from 02:00 to 02:00, with 100 at 01:00 and 101 at 02:00.
    expect([27, 47, 49, 50, 51].map((hour) => outdoor.celsius(hour * 60))).toEqual([
      3, 23, 100, 101, 3,
    ]);
    expect([-1, -24, -25].map((hour) => outdoor.celsius(hour * 60))).toEqual([23, 0, 23]);
    expect([-1, 0, 26 * 60, 26 * 60 + 1].map((minute) => outdoor.known(minute))).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });

  it('holds its ends where it is shorter than a day', () => {
    const outdoor = outdoorOf(hourly(0, [3, 5]), Date.parse(ORIGIN));
    expect([70, 600, 1440, 1470].map((minute) => outdoor.celsius(minute))).toEqual([3, 3, 3, 4]);
  });

  it('assumes what lies in a gap of the readings', () => {
    const table = [...hourly(0, [3, 5]), ...hourly(3, [9])];
    const outdoor = outdoorOf(table, Date.parse(ORIGIN));
    expect(outdoor.celsius(120)).toBe(7);
    expect([30, 60, 120, 180].map((minute) => outdoor.known(minute))).toEqual([
      true,
      true,
      false,
      true,
    ]);
  });

  it('refuses an empty table and readings out of order', () => {
    expect(() => outdoorOf([], 0)).toThrow(DomainError);
    expect(() => outdoorOf([...hourly(1, [1]), ...hourly(0, [1])], 0)).toThrow(/reading 2/);
  });
});
