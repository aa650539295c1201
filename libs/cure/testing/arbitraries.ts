import fc from 'fast-check';

import type { TemperatureBand, TemperatureSeries } from '../clock/series.ts';
import type { CureLaw, CureMaterial } from '../material/material.ts';
import { cureMaterialOf, limitsOf, tableLaw } from './cure-material.ts';

/** An exact table of two to six rows between -5 and 50 degrees, never slower when warmer. */
const cureTables: fc.Arbitrary<CureLaw> = fc
  .record({
    celsius: fc.uniqueArray(fc.integer({ min: -5, max: 50 }), { minLength: 2, maxLength: 6 }),
    slowest: fc.integer({ min: 60, max: 4000 }),
    shares: fc.array(fc.double({ min: 0.3, max: 1, noNaN: true }), { minLength: 6, maxLength: 6 }),
  })
  .map(({ celsius, slowest, shares }) => {
    let minutes = slowest;
    return tableLaw(
      [...celsius]
        .sort((a, b) => a - b)
        .map((c, k) => [c, (minutes *= k === 0 ? 1 : shares[k])] as const),
    );
  });

/** A stalling material with one exact table under both sides' names. */
export const stalling: fc.Arbitrary<CureMaterial> = fc
  .record({ table: cureTables, minimumC: fc.integer({ min: -10, max: 15 }) })
  .map(({ table, minimumC }) =>
    cureMaterialOf({
      id: 'm',
      name: 'Generated',
      milestones: { 'bond-opens': table, 'bond-closes': table },
      limits: limitsOf(minimumC, 60),
    }),
  );

/** Evenly spread, to the hundredth: doubles of the library are mostly tiny where a range holds 0. */
export const hundredths = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 100 * min, max: 100 * max }).map((whole) => whole / 100);

/** A day or two of temperatures 1 to 60 minutes apart, some of it colder than any minimum. */
export const histories: fc.Arbitrary<TemperatureSeries> = fc.record({
  shape: fc.constantFrom('steps', 'lines'),
  start: fc.integer({ min: -300, max: 300 }),
  step: fc.constantFrom(1, 7, 10, 60),
  celsius: fc.array(hundredths(-15, 55), { minLength: 1, maxLength: 60 }),
});

const shifted = (series: TemperatureSeries, by: number): TemperatureSeries => ({
  ...series,
  celsius: Array.from(series.celsius, (c) => c + by),
});

/** A history known to plus or minus up to ten degrees. */
export const bands: fc.Arbitrary<TemperatureBand> = fc
  .tuple(histories, hundredths(0, 10))
  .map(([expected, by]) => ({
    cold: shifted(expected, -by),
    expected,
    warm: shifted(expected, by),
  }));

/** A material with a window that it keeps open whatever its spreads, at temperatures of 0 to 40 degrees. */
export const windowed: fc.Arbitrary<CureMaterial> = fc
  .record({
    minutes: fc.integer({ min: 30, max: 2000 }),
    shares: fc.array(fc.double({ min: 0.2, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
    spread: fc.double({ min: 1, max: 1.5, noNaN: true }),
    longer: fc.double({ min: 1, max: 4, noNaN: true }),
  })
  .map(({ minutes, shares, spread, longer }) => {
    let opens = minutes;
    const rows = [0, 10, 20, 30, 40].map(
      (c, k) => [c, (opens *= k === 0 ? 1 : shares[k - 1])] as const,
    );
    const closes = rows.map(([c, time]) => [c, time * spread * spread * longer] as const);
    return cureMaterialOf({
      milestones: {
        'bond-opens': tableLaw(rows, { spread }),
        'bond-closes': tableLaw(closes, { spread }),
      },
    });
  });
