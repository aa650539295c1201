import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { TemperatureSeries } from '../clock/series.ts';
import { spaceClimate } from './make.ts';
import type { ClimateSettings, SpaceReading, Weather } from './settings.ts';
import type { SpaceClimate } from './space-climate.ts';
import {
  changeOf,
  daily,
  followed,
  heatedTo,
  readingOf,
  settingsOf,
  utc,
} from './testing/settings.ts';

const FIRST = -600;
const span = { first: FIRST, horizon: 2000, step: 10 };

const climates = fc.oneof(
  fc
    .constantFrom(0, 0.5, 4, 30)
    .chain((lag) => fc.integer({ min: -2, max: 6 }).map((by) => followed(lag, by))),
  fc
    .tuple(
      fc.integer({ min: 10, max: 25 }),
      fc.integer({ min: 5, max: 25 }),
      fc.constantFrom('06:00', '06:07'),
    )
    .map(([day, night, from]) => heatedTo(daily(from, day), daily('19:00', night))),
);

const changes = fc.array(
  fc
    .record({
      kind: fc.constantFrom<'heater' | 'tent' | 'dehumidifier'>('heater', 'tent', 'dehumidifier'),
      from: fc.integer({ min: -900, max: 1500 }),
      minutes: fc.integer({ min: 1, max: 1500 }),
      celsius: fc.integer({ min: 10, max: 25 }),
      lagHours: fc.constantFrom(0, 1, 8),
      percent: fc.integer({ min: 30, max: 90 }),
    })
    .map(({ kind, from, minutes, ...more }) => changeOf(kind, from, from + minutes, more)),
  { maxLength: 3 },
);

const settings: fc.Arbitrary<ClimateSettings> = fc
  .record({
    climate: climates,
    bandC: fc.option(fc.constantFrom(0, 0.5, 3)),
    skin: fc.option(
      fc.record({
        outdoorShare: fc.double({ min: 0, max: 1, noNaN: true }),
        lagHours: fc.constantFrom(0, 1, 6),
      }),
    ),
    changes,
  })
  .map(({ climate, ...more }) =>
    settingsOf(climate, { ...more, humidity: { kind: 'outdoors', addsHPa: 2 } }),
  );

const tables = fc
  .record({
    start: fc.integer({ min: -2000, max: 500 }),
    celsius: fc.array(fc.integer({ min: -10, max: 30 }), { minLength: 1, maxLength: 60 }),
  })
  .map(({ start, celsius }): Weather => ({ start, celsius, humidity: celsius.map(() => 85) }));

const readings: fc.Arbitrary<SpaceReading[]> = fc
  .uniqueArray(fc.integer({ min: -50, max: 50 }), { maxLength: 6 })
  .chain((moments) =>
    fc
      .array(fc.integer({ min: -5, max: 30 }), { minLength: 6, maxLength: 6 })
      .map((values) =>
        moments.map((moment, k) =>
          readingOf(moment * 10, values[k], { of: k % 2 === 0 ? 'air' : 'surface', humidity: 60 }),
        ),
      ),
  );

const all = (climate: SpaceClimate): number[] => [
  ...Array.from(climate.air.expected.celsius),
  ...Array.from(climate.surface.expected.celsius),
];

describe('any space', () => {
  it('is cold <= expected <= warm at every point, never more humid than air can be', () => {
    fc.assert(
      fc.property(settings, tables, readings, (space, weather, list) => {
        const climate = spaceClimate(space, weather, list, utc, span);
        for (const band of [climate.air, climate.surface]) {
          expect(band.expected.celsius).toHaveLength(261);
          for (let k = 0; k < 261; k++) {
            const [cold, expected, warm] = [band.cold, band.expected, band.warm].map(
              (series) => series.celsius[k],
            );
            if (!(cold <= expected + 1e-9 && expected <= warm + 1e-9))
              expect([k, cold, expected, warm]).toBe('in order');
          }
        }
        const humidity = Array.from(climate.humidity ?? []);
        const dew = Array.from(climate.dewPointC ?? []);
        expect(humidity).toHaveLength(261);
        expect(Math.max(...humidity)).toBeLessThanOrEqual(100);
        expect(Math.min(...humidity)).toBeGreaterThan(0);
        expect(dew.every((c, k) => c <= climate.air.expected.celsius[k] + 1e-9)).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it('is steady where the outdoors is', () => {
    const steady = fc.integer({ min: -10, max: 30 });
    fc.assert(
      fc.property(fc.constantFrom(0, 0.5, 4, 30), steady, (lagHours, celsius) => {
        const weather = { start: 0, celsius: [celsius], humidity: [] };
        const skin = { outdoorShare: 0.4, lagHours: 3 };
        const climate = spaceClimate(
          settingsOf(followed(lagHours, 2), { skin }),
          weather,
          [],
          utc,
          span,
        );
        const off = (series: TemperatureSeries, wanted: number): number =>
          Math.max(...Array.from(series.celsius, (c) => Math.abs(c - wanted)));
        expect(off(climate.air.cold, celsius + 2)).toBeLessThan(1e-9);
        expect(off(climate.surface.warm, celsius + 0.6 * 2)).toBeLessThan(1e-9);
      }),
      { numRuns: 20 },
    );
  });

  it('is never colder for warmer weather', () => {
    const gains = fc.array(fc.integer({ min: 0, max: 15 }), { minLength: 60, maxLength: 60 });
    fc.assert(
      fc.property(settings, tables, gains, (space, weather, gain) => {
        const warmer = { ...weather, celsius: weather.celsius.map((c, k) => c + gain[k]) };
        const before = all(spaceClimate(space, weather, [], utc, span));
        const after = all(spaceClimate(space, warmer, [], utc, span));
        expect(after.every((c, k) => c >= before[k] - 1e-9)).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it('stays between the extremes of what it has seen', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 40, noNaN: true }), tables, (lagHours, weather) => {
        const seen = all(spaceClimate(settingsOf(followed(lagHours)), weather, [], utc, span));
        expect(Math.min(...seen)).toBeGreaterThanOrEqual(Math.min(...weather.celsius) - 1e-9);
        expect(Math.max(...seen)).toBeLessThanOrEqual(Math.max(...weather.celsius) + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it('is the same from an earlier beginning, and on a coarser grid', () => {
    fc.assert(
      fc.property(fc.constantFrom(0, 2, 12), tables, readings, (lagHours, weather, list) => {
        const aligned = { ...weather, start: Math.round(weather.start / 60) * 60 };
        const space = settingsOf(followed(lagHours), { skin: { outdoorShare: 0.5, lagHours: 2 } });
        const from = (first: number, step = 10, known = list): number[] =>
          Array.from(
            spaceClimate(space, aligned, known, utc, { ...span, first, step }).surface.expected
              .celsius,
          );
        const late = from(FIRST);
        const early = from(FIRST - 3000).slice(300);
        // What is left of the unknown beginnings: a settled body is within 0.1 % of its difference.
        late.forEach((c, k) => expect(Math.abs(c - early[k])).toBeLessThan(0.35));
        // Straight between hours, so an hour is as good as ten minutes but for bent lines of the air.
        const coarse = from(FIRST, 60, []);
        const fine = from(FIRST, 10, []);
        coarse.slice(0, 43).forEach((c, k) => expect(Math.abs(c - fine[6 * k])).toBeLessThan(0.6));
      }),
      { numRuns: 30 },
    );
  });
});
