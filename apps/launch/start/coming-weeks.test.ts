import { readFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { weekdayOf } from '#calendar/local-date.ts';
import { instantOf, toLocal } from '#calendar/local-time.ts';
import { readYard } from '#planning/yard/read.ts';
import { yardFaults } from '#planning/yard/check/check.ts';
import { inComingWeeks } from './coming-weeks.ts';
import { yards } from './settings.ts';

const seed = async (file: string) =>
  readYard(
    JSON.parse(await readFile(new URL(`../../../seeds/${file}`, import.meta.url), 'utf8')),
    file,
  );

/** Before and after the file's own date, before the working day, on a Sunday, around both changes of the clock. */
const moments = [
  '2026-11-25T21:00:00Z',
  '2026-11-30T05:00:00Z',
  '2026-11-30T06:00:00Z',
  '2027-03-27T12:00:00Z',
  '2027-03-28T23:30:00Z',
  '2031-10-26T00:30:00Z',
  '2024-02-29T18:00:00Z',
];

describe.each(Object.values(yards))('%s', (file) => {
  test.each(moments)('at %s has begun, and keeps its weekdays and wall times', async (now) => {
    const yard = await seed(file);
    const moved = inComingWeeks(yard, new Date(now));
    const age = Date.parse(now) - Date.parse(moved.planFrom);
    expect(age).toBeGreaterThanOrEqual(0);
    // A day of 25 hours is the longest there is.
    expect(age).toBeLessThan(25 * 3_600_000);
    const wall = (instant: string): [weekday: number, time: string] => {
      const { date, time } = toLocal(instantOf(instant), yard.timeZone);
      return [weekdayOf(date), time];
    };
    expect(wall(moved.planFrom)[1]).toBe(wall(yard.planFrom)[1]);
    const promises = (of: typeof yard) =>
      of.boats.flatMap(({ refits }) => refits.flatMap(({ promised }) => promised ?? []));
    expect(promises(moved).map(wall)).toEqual(promises(yard).map(wall));
    for (const { release, promised } of moved.boats.flatMap(({ refits }) => refits)) {
      expect(Date.parse(promised ?? '')).toBeGreaterThan(Date.parse(release));
    }
    const weather = moved.outdoor;
    expect(weather && wall(weather.from)).toEqual(yard.outdoor && wall(yard.outdoor.from));
    expect(Date.parse(weather?.from ?? '')).toBeLessThanOrEqual(Date.parse(moved.planFrom));
    expect(yardFaults(moved)).toEqual([]);
  });
});
