import fc from 'fast-check';

import type { TemperatureSeries } from '../clock/series.ts';
import type { CureMaterial, CureTable } from '../material/material.ts';

/** A table of two to six rows between -5 and 50 degrees, never slower when warmer. */
const cureTables: fc.Arbitrary<CureTable> = fc
  .record({
    celsius: fc.uniqueArray(fc.integer({ min: -5, max: 50 }), { minLength: 2, maxLength: 6 }),
    slowest: fc.integer({ min: 60, max: 4000 }),
    shares: fc.array(fc.double({ min: 0.3, max: 1, noNaN: true }), { minLength: 6, maxLength: 6 }),
  })
  .map(({ celsius, slowest, shares }) => {
    let minutes = slowest;
    const rows = [...celsius]
      .sort((a, b) => a - b)
      .map((c, k) => ({ celsius: c, minutes: (minutes *= k === 0 ? 1 : shares[k]) }));
    return { rows, source: 'generated' };
  });

/** A stalling material with one table under both sides' names. */
export const stalling: fc.Arbitrary<CureMaterial> = fc
  .record({ table: cureTables, minimumC: fc.integer({ min: -10, max: 15 }) })
  .map(({ table, minimumC }) => ({
    id: 'm',
    name: 'Generated',
    milestones: { 'bond-opens': table, 'bond-closes': table },
    minimumC,
    belowMinimum: 'stalls',
    maximumC: 60,
  }));

/** A day or two of temperatures in steps of 1 to 60 minutes, some of it colder than any minimum. */
export const histories: fc.Arbitrary<TemperatureSeries> = fc.record({
  start: fc.integer({ min: -300, max: 300 }),
  step: fc.constantFrom(1, 7, 10, 60),
  celsius: fc.array(fc.double({ min: -15, max: 55, noNaN: true }), { minLength: 1, maxLength: 60 }),
});
