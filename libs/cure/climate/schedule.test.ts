import { describe, expect, it } from 'vitest';

import { celsiusAt } from '../clock/series.ts';
import { spaceClimate } from './make.ts';
import { heldFrom } from './schedule.ts';
import type { SetPoint, WallClock } from './settings.ts';
import { daily, heatedTo, settingsOf, spanOf, utc } from './testing/settings.ts';

const DAY = 1440;

/** Europe/London from 2026-01-01T00:00Z, a Thursday: an hour ahead from 29 March 01:00Z to 25 October 01:00Z. */
const SPRING = (31 + 28 + 28) * DAY + 60;
const AUTUMN = (365 - 31 - 30 - 7) * DAY + 60;
const london: WallClock = (minute) => {
  const wall = minute + (minute >= SPRING && minute < AUTUMN ? 60 : 0);
  const day = Math.floor(wall / DAY);
  return { weekday: ((day + 3) % 7) + 1, minuteOfDay: wall - day * DAY };
};

const workdays = [1, 2, 3, 4, 5];
const week: readonly SetPoint[] = [
  { weekdays: workdays, from: '06:00', celsius: 20 },
  { weekdays: workdays, from: '18:30', celsius: 15 },
];

describe('heated space', () => {
  it('holds the set-point that began last, over the weekend too', () => {
    const { air, assumed } = spaceClimate(settingsOf(heatedTo(...week)), null, [], utc, spanOf(7));
    const at = (day: number, hour: number): number =>
      celsiusAt(air.expected, day * DAY + hour * 60);
    expect([at(0, 1), at(0, 7), at(0, 18), at(0, 19), at(1, 3), at(5, 12), at(6, 23)]).toEqual([
      15, 20, 20, 15, 15, 15, 15,
    ]);
    expect(assumed).toEqual([]);
  });

  it('cannot jump in lines, and stays on the safe side of the truth within a step', () => {
    const { air } = spaceClimate(settingsOf(heatedTo(...week)), null, [], utc, spanOf(1));
    const at = (minute: number): number[] =>
      [air.cold, air.expected, air.warm].map((series) => celsiusAt(series, minute));
    expect(at(350)).toEqual([15, 15, 15]);
    expect(at(360)).toEqual([15, 17.5, 20]);
    expect(at(370)).toEqual([20, 20, 20]);
    expect(at(1110)).toEqual([15, 17.5, 20]);
  });

  it('keeps the integral of a jump between two points', () => {
    for (const time of ['06:01', '06:03', '06:05', '06:08']) {
      const climate = heatedTo(daily(time, 20), daily('18:00', 10));
      const { air } = spaceClimate(settingsOf(climate), null, [], utc, spanOf(0.5));
      const points = Array.from(air.expected.celsius);
      const integral = points.slice(1).reduce((sum, c, k) => sum + 5 * (c + points[k]), 0);
      const warmMinutes = 720 - (360 + Number(time.slice(3)));
      // From 00:00 to 12:00; the fall at 18:00 comes later.
      expect(integral).toBeCloseTo(720 * 10 + 10 * warmMinutes, 6);
    }
  });

  it('warms and cools with a time constant where one is given', () => {
    const climate = { ...heatedTo(daily('06:00', 20), daily('18:00', 10)), lagHours: 2 };
    const { air } = spaceClimate(settingsOf(climate), null, [], utc, spanOf(1));
    // Periodic: with e = exp(-12 / 2) it is 10 + 10 e / (1 + e) at 06:00 (calculated).
    const low = 10 + (10 * Math.exp(-6)) / (1 + Math.exp(-6));
    expect(celsiusAt(air.expected, 360)).toBeCloseTo(low, 6);
    expect(celsiusAt(air.expected, 480)).toBeCloseTo(20 - (20 - low) * Math.exp(-1), 6);
  });

  it('refuses a schedule without a set-point, or with a time that is none', () => {
    for (const bad of [heatedTo(), heatedTo(daily('six', 20))]) {
      expect(() => spaceClimate(settingsOf(bad), null, [], utc, spanOf(1))).toThrow(
        /heating schedule/,
      );
    }
  });
});

describe('a year of set-points with both changes of the clocks', () => {
  const held = heldFrom(week, london, 0, 365 * DAY);

  it('begins every set-point when the wall shows its time', () => {
    // 2026 has 261 days from Monday to Friday, two changes each; the first night is one of cold.
    expect(held).toHaveLength(1 + 2 * 261);
    for (const { from, celsius } of held.slice(1)) {
      const { weekday, minuteOfDay } = london(from);
      expect(weekday).toBeLessThanOrEqual(5);
      expect(minuteOfDay).toBe(celsius === 20 ? 360 : 1110);
    }
    // In summer that is an hour earlier by UTC.
    const utcTimes = new Set(held.slice(1).map(({ from }) => from % DAY));
    expect([...utcTimes].sort((a, b) => a - b)).toEqual([300, 360, 1050, 1110]);
  });

  it('begins one in the skipped hour after it, and one in the doubled hour twice', () => {
    const sunday = [
      { weekdays: [7], from: '01:30', celsius: 25 },
      { weekdays: [7], from: '12:00', celsius: 5 },
    ];
    const begun = (around: number): number[] =>
      heldFrom(sunday, london, around - 300, around + 300).map(({ from }) => from - around);
    expect(begun(SPRING)).toEqual([-300, 0]);
    // Shown 01:30 half an hour before the change, then again half an hour after it.
    expect(begun(AUTUMN)).toEqual([-300, -30, 0, 30]);
  });
});
