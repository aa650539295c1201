import { readFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { dayNumber, weekdayOf } from '#calendar/local-date.ts';
import { instantOf, toLocal } from '#calendar/local-time.ts';
import { readYard } from '#planning/yard/read.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { yardFaults } from '#planning/yard/check/check.ts';
import { inComingWeeks } from './coming-weeks.ts';
import { yards } from './settings.ts';

/** The yard of the file, its boats handed over on their promised days as well: no seed says so. */
const seed = async (file: string): Promise<Yard> => {
  const text = await readFile(new URL(`../../../seeds/${file}`, import.meta.url), 'utf8');
  const yard = readYard(JSON.parse(text), file);
  const boats = yard.boats.map((boat) => ({
    ...boat,
    refits: boat.refits.map((refit) => ({
      ...refit,
      handovers: refit.promised === null ? [] : [refit.promised],
    })),
  }));
  return { ...yard, boats: boats.map(dateFoam) };
};

/** Its foam known to have been put in the week before: no seed says so. */
const dateFoam = (boat: Yard['boats'][number]): Yard['boats'][number] => ({
  ...boat,
  refits: boat.refits.map((refit) => ({
    ...refit,
    parts: refit.parts.map((part) => ({
      ...part,
      layers: part.layers.map((layer) =>
        layer.base === 'foam' ? { ...layer, laidAt: '2026-11-21T10:00:00Z' } : layer,
      ),
    })),
  })),
});

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

/** All that has a date anywhere in a yard, by its path, and the local day. */
function dated(value: unknown, zone: string, path = ''): [path: string, day: number][] {
  if (typeof value === 'string') {
    if (/^\d{4}-\d{2}-\d{2}$/.test(value)) return [[path, dayNumber(value)]];
    if (!/^\d{4}-\d{2}-\d{2}T/.test(value)) return [];
    return [[path, dayNumber(toLocal(instantOf(value), zone).date)]];
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => dated(inner, zone, `${path}.${key}`));
}

test('the demo has dates of every kind that a yard may have', async () => {
  const kinds = dated(await seed(yards.demo), 'UTC').map(([path]) =>
    path
      .replace(/\.\d+$/, '')
      .split('.')
      .at(-1),
  );
  expect([...new Set(kinds)].sort()).toEqual(
    [
      'at',
      'date',
      'expected',
      'from',
      'handovers',
      'laidAt',
      'planFrom',
      'promised',
      'release',
      'to',
    ].sort(),
  );
});

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
    // Whatever field the yard file gains: nothing stays where it was.
    const before = dated(yard, yard.timeZone);
    const after = dated(moved, yard.timeZone);
    expect(after.map(([path]) => path)).toEqual(before.map(([path]) => path));
    const begins = /^\.planFrom$|\.release$|\.laidAt$|\.at$/;
    const far = (exact: boolean): Set<number> =>
      new Set(
        before.flatMap(([path, day], k) => (begins.test(path) === exact ? after[k][1] - day : [])),
      );
    expect(far(true).size).toBe(1);
    const [weeks, ...others] = [...far(false)].map((days) => days / 7);
    expect([others, Number.isInteger(weeks)]).toEqual([[], true]);
  });
});
