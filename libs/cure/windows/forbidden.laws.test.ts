import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { celsiusAt, type TemperatureSeries } from '../clock/series.ts';
import { cureClock, reachedAt } from '../clock/cure-clock.ts';
import type { SpaceClimate } from '../climate/space-climate.ts';
import { level } from '../evidence/figure.ts';
import type { CureMaterial } from '../material/material.ts';
import { stalling } from '../testing/arbitraries.ts';
import { forbiddenStarts } from './forbidden.ts';

const POINTS = 24;
const STEP = 20;
const HORIZON = 300;
/** From here on everything holds its last value. */
const END = (POINTS - 1) * STEP - 100;

const lines = (celsius: readonly number[]): TemperatureSeries => ({
  shape: 'lines',
  start: -100,
  step: STEP,
  celsius,
});

const values = (min: number, max: number): fc.Arbitrary<number[]> =>
  fc.array(fc.integer({ min, max }), { minLength: POINTS, maxLength: POINTS });

const climates = fc
  .record({
    cold: values(-5, 40),
    above: values(0, 4),
    humidity: values(20, 100),
    dewPointC: values(-5, 25),
  })
  .map(({ cold, above, humidity, dewPointC }): SpaceClimate => {
    const expected = cold.map((c, k) => c + above[k]);
    const warm = expected.map((c, k) => c + above[k]);
    const band = { cold: lines(cold), expected: lines(expected), warm: lines(warm) };
    const air = { ...band, cold: lines(expected), warm: lines(warm.map((c) => c + 1)) };
    return { air, surface: band, humidity, dewPointC, assumed: [] };
  });

const quarter = (hours: number): ReturnType<typeof level> => level(hours / 4, 'sheet', 'generated');

const materials = fc
  .record({
    base: stalling,
    maximum: fc.integer({ min: 25, max: 50 }),
    belowMinimum: fc.constantFrom<'stalls' | 'spoils'>('stalls', 'spoils'),
    dampAir: fc.constantFrom<'refuse' | 'warn'>('refuse', 'warn'),
    humidity: fc.option(fc.integer({ min: 50, max: 95 })),
    margin: fc.option(fc.integer({ min: 0, max: 5 })),
    preheat: fc.option(fc.integer({ min: 1, max: 8 })),
    hold: fc.option(fc.integer({ min: 0, max: 8 })),
  })
  .map(({ base, maximum, humidity, margin, preheat, hold, ...more }): CureMaterial => ({
    ...base,
    limits: {
      ...base.limits,
      ...more,
      maximumC: level(maximum, 'sheet', 'generated'),
      maximumHumidity: humidity === null ? null : level(humidity, 'sheet', 'generated'),
      minimumDewMarginC: margin === null ? null : level(margin, 'sheet', 'generated'),
      preheatHours: preheat === null ? null : quarter(preheat),
      holdHours: hold === null ? null : quarter(hold),
    },
  }));

/**
 * Whether a condition is met at any moment of [from, to): at moments a sixtieth of a minute
 * apart from the beginning on, strictly inside, and never nearer to a crossing than rounding.
 */
const meets = (bad: (minute: number) => boolean, from: number, to: number): boolean => {
  for (let minute = from; minute < to; minute += 1)
    for (const part of [0.001, 0.25, 0.5, 0.75, 0.999]) if (bad(minute + part)) return true;
  return false;
};

describe('forbidden starts', () => {
  it('are exactly those that a walk through the minutes forbids', () => {
    fc.assert(
      fc.property(
        materials,
        climates,
        fc.integer({ min: 0, max: 90 }),
        (material, climate, minutes) => {
          const { limits } = material;
          const spans = forbiddenStarts(material, climate, 'bond-opens', minutes, HORIZON);
          const clock = cureClock(material, 'bond-opens', 'open', climate.surface);
          const { air, surface } = climate;
          const on = (list: ArrayLike<number> | null, at: number): number =>
            celsiusAt(lines(Array.from(list ?? [])), at);
          const minimum = limits.minimumC.value;
          const work = Math.max(1, minutes);
          const hot = (at: number): boolean =>
            Math.max(celsiusAt(air.warm, at), celsiusAt(surface.warm, at)) > limits.maximumC.value;
          const filmCold = (at: number): boolean => celsiusAt(surface.cold, at) < minimum;
          const airCold = (at: number): boolean => celsiusAt(air.cold, at) < minimum;
          const damp = (at: number): boolean =>
            (limits.maximumHumidity !== null &&
              on(climate.humidity, at) > limits.maximumHumidity.value) ||
            (limits.minimumDewMarginC !== null &&
              celsiusAt(surface.cold, at) - on(climate.dewPointC, at) <
                limits.minimumDewMarginC.value);
          const differs: unknown[] = [];
          for (let start = 0; start <= HORIZON; start++) {
            const safe = reachedAt(clock, start + minutes) ?? Infinity;
            // Nothing changes beyond the end, so there is nothing more to see there.
            const until = Math.min(Math.max(safe, start + work), Math.max(END, start + work) + 1);
            const preheat = limits.preheatHours === null ? null : limits.preheatHours.value * 60;
            const hold = limits.holdHours === null ? null : limits.holdHours.value * 60;
            const bad =
              meets(hot, start, start + work) ||
              (limits.belowMinimum === 'spoils' && meets(filmCold, start, until)) ||
              (preheat !== null && meets(airCold, start - preheat, start)) ||
              (hold !== null && meets(airCold, start, start + work + hold)) ||
              (limits.dampAir === 'refuse' && meets(damp, start, until));
            if (spans.some((s) => s.start <= start && start < s.end) !== bad)
              differs.push([start, bad]);
          }
          expect(differs).toEqual([]);
          spans.forEach((s, k) => {
            expect(s.start < s.end && (k === 0 || spans[k - 1].end < s.start)).toBe(true);
          });
        },
      ),
      { numRuns: 60 },
    );
  });
});
