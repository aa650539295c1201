import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { celsiusAt, type TemperatureSeries } from '../clock/series.ts';
import { spaceClimate } from './make.ts';
import { readingFaults } from './reading-faults.ts';
import type { SpaceReading } from './settings.ts';
import type { SpaceClimate } from './space-climate.ts';
import {
  changeOf,
  daily,
  followed,
  heatedTo,
  readingOf,
  settingsOf,
  spanOf,
  utc,
  weatherOf,
} from './testing/settings.ts';

const FIRST = -2880;
const weather = weatherOf(FIRST - 60 * 24 * 10, 24 * 16, (hour) => 8 + 5 * Math.sin(hour / 4));

const with_ = (readings: readonly SpaceReading[], lagHours = 3, bandC = 2): SpaceClimate =>
  spaceClimate(settingsOf(followed(lagHours), { bandC }), weather, readings, utc, spanOf(3, FIRST));

/** Mean of a series over a stretch: of lines, by their integral in steps of half minutes. */
function mean(series: TemperatureSeries, from: number, minutes: number): number {
  if (minutes === 0) return celsiusAt(series, from);
  let sum = 0;
  for (let k = 0; k < 2 * minutes; k++) sum += celsiusAt(series, from + 0.25 + k / 2);
  return sum / (2 * minutes);
}

describe('readings', () => {
  it('are what the series gives: at a moment, and as the mean of a stretch', () => {
    // Half an hour or more from the beginning of one to that of the next, and no overlap.
    const lists = fc
      .array(
        fc.record({
          gap: fc.integer({ min: 30, max: 400 }),
          minutes: fc.constantFrom(0, 0, 7, 30, 60, 240),
          celsius: fc.double({ min: 2, max: 20, noNaN: true }),
        }),
        { minLength: 1, maxLength: 8 },
      )
      .map((list) => {
        let at = FIRST;
        return list.map(({ gap, minutes, celsius }) => {
          at += gap;
          const reading = readingOf(at, celsius, { minutes });
          at += minutes;
          return reading;
        });
      });
    fc.assert(
      fc.property(lists, fc.constantFrom(0, 3, 12), (readings, lagHours) => {
        const { air } = with_(readings, lagHours);
        for (const { at, minutes, celsius } of readings)
          expect(mean(air.expected, at, minutes)).toBeCloseTo(celsius, 6);
      }),
      { numRuns: 40 },
    );
  });

  const widthOf = (
    readings: readonly SpaceReading[],
    lagHours = 3,
    bandC = 2,
  ): ((minute: number) => number) => {
    const { air } = with_(readings, lagHours, bandC);
    return (minute) => celsiusAt(air.expected, minute) - celsiusAt(air.cold, minute);
  };

  it('are known as well as a thermometer tells, and the doubt grows back with the lag', () => {
    const width = widthOf([readingOf(-600, 15)]);
    // Half a degree (common practice) and thousandths that the chord of a bent line may be off by.
    expect(width(-600)).toBeCloseTo(0.5, 2);
    // e^-2 of the rest of the variance is gone after one time constant, either way (calculated).
    for (const minute of [-600 - 180, -600 + 180])
      expect(width(minute)).toBeCloseTo(Math.sqrt(4 - (4 - 0.25) * Math.exp(-2)), 2);
    expect(width(600)).toBeCloseTo(2, 2);
    // What is known better without it is not made worse by it.
    expect(widthOf([readingOf(-600, 15)], 3, 0.2)(-600)).toBeCloseTo(0.2, 2);
  });

  it('leave doubt of each moment where only their mean is known', () => {
    /** The middle of a process of one time constant, given its mean over L of them, by summing. */
    const left = (minutes: number, tau: number): number => {
      const points = Array.from({ length: 400 }, (_, k) => ((k + 0.5) / 400) * minutes);
      const mean = (of: (t: number) => number): number =>
        points.reduce((sum, t) => sum + of(t), 0) / points.length;
      const withMiddle = mean((t) => Math.exp(-Math.abs(t - minutes / 2) / tau));
      const ofMean = mean((t) => mean((s) => Math.exp(-Math.abs(t - s) / tau)));
      return 1 - (withMiddle * withMiddle) / ofMean;
    };
    for (const [minutes, lagHours] of [
      [60, 3],
      [240, 3],
      [480, 1],
    ]) {
      const width = widthOf([readingOf(-600, 12, { minutes })], lagHours)(-600 + minutes / 2);
      const variance = 0.25 + (4 - 0.25) * left(minutes, lagHours * 60);
      expect(width).toBeCloseTo(Math.sqrt(variance), 2);
    }
    // Of eight hours in a space that forgets in one, hardly anything.
    expect(widthOf([readingOf(-600, 12, { minutes: 480 })], 1)(-360)).toBeGreaterThan(1.7);
  });

  it('nudge the forecast, which returns to the reckoning with the lag', () => {
    const plain = with_([]).air.expected;
    const nudged = with_([readingOf(-60, celsiusAt(plain, -60) + 4)]).air.expected;
    const off = (minute: number): number => celsiusAt(nudged, minute) - celsiusAt(plain, minute);
    expect(off(-60)).toBeCloseTo(4, 9);
    expect(off(120)).toBeCloseTo(4 * Math.exp(-1), 6);
    expect(Math.abs(off(3000))).toBeLessThan(1e-6);
    // As the body would, were it started anew from what was read: 4 degrees decay with its lag.
    expect(off(480) / off(300)).toBeCloseTo(Math.exp(-1), 9);
  });

  it('are remembered for an hour where the space has no lag', () => {
    const settings = settingsOf(heatedTo(daily('00:00', 18)));
    const { air } = spaceClimate(settings, null, [readingOf(-60, 14)], utc, spanOf(1, FIRST));
    expect(celsiusAt(air.expected, -60)).toBeCloseTo(14, 9);
    expect(celsiusAt(air.expected, 0)).toBeCloseTo(18 - 4 * Math.exp(-1), 9);
  });

  it('of a heavy skin are remembered as long as it lags behind', () => {
    const skin = { outdoorShare: 0, lagHours: 8 };
    const settings = settingsOf(heatedTo(daily('00:00', 18)), { skin });
    const cold = readingOf(-60, 10, { of: 'surface' });
    const { surface } = spaceClimate(settings, null, [cold], utc, spanOf(1, FIRST));
    expect(celsiusAt(surface.expected, 420)).toBeCloseTo(18 - 8 * Math.exp(-1), 6);
  });

  it('are not made warmer by a heater than it keeps, nor by one of before', () => {
    const make = (celsius: number, from: number, to: number, readings: SpaceReading[]) => {
      const changes = [changeOf('heater', from, to, { celsius: 20 })];
      const steady = weatherOf(FIRST - 60 * 240, 24 * 16, () => celsius);
      return spaceClimate(
        settingsOf(followed(12), { changes }),
        steady,
        readings,
        utc,
        spanOf(3, FIRST),
      ).air.expected;
    };
    // Free at 26 it was read at 21: the heater of 20 has nothing to give.
    const free = make(26, 0, 4000, [readingOf(-60, 21)]);
    expect(celsiusAt(free, 60)).toBeCloseTo(26 - 5 * Math.exp(-120 / 720), 6);
    const past = make(5, -900, -600, [readingOf(-700, 14), readingOf(-60, 8)]);
    expect(celsiusAt(past, -700)).toBeCloseTo(14, 9);
  });

  it('leave a heater that is set up after them its word, and show one that does not cope', () => {
    const heater = changeOf('heater', 0, 4000, { celsius: 20 });
    const make = (readings: readonly SpaceReading[]): ((minute: number) => number) => {
      const space = settingsOf(followed(12), { changes: [heater] });
      const { air } = spaceClimate(space, weather, readings, utc, spanOf(3, FIRST));
      return (minute) => celsiusAt(air.expected, minute);
    };
    const before = make([readingOf(-60, 2)]);
    expect(before(-60)).toBeCloseTo(2, 9);
    expect([10, 600, 1440].map(before)).toEqual([20, 20, 20]);
    const during = make([readingOf(-60, 2), readingOf(300, 16)]);
    expect(during(300)).toBeCloseTo(16, 9);
    expect(during(300 + 720)).toBeCloseTo(20 - 4 * Math.exp(-1), 6);
  });

  it('count as one where they are closer than half an hour', () => {
    const close = [12, 13, 17].map((celsius, k) => readingOf(-600 + k * 10, celsius));
    const { expected } = with_(close).air;
    const read = [-600, -590, -580].map((minute) => celsiusAt(expected, minute));
    expect((read[0] + read[1] + read[2]) / 3).toBeCloseTo(14, 6);
  });

  it('beside a mean of hours count for as little as the time that they stand for', () => {
    // A glance at 5 degrees, ten minutes later the mean of four hours, 15: not ten degrees.
    const { expected } = with_([readingOf(-600, 5), readingOf(-590, 15, { minutes: 240 })], 3).air;
    const both = (mean(expected, -590, 240) * 240 + celsiusAt(expected, -600) * 10) / 250;
    expect(both).toBeCloseTo((15 * 240 + 5 * 10) / 250, 6);
    expect(mean(expected, -590, 240)).toBeGreaterThan(14);
  });

  it('follow a logger of every ten minutes without swinging', () => {
    // Noise of half a degree about 12: whatever is between stays within it.
    const logged = Array.from({ length: 200 }, (_, k) =>
      readingOf(FIRST + 60 + k * 10, 12 + (k % 2 === 0 ? 0.5 : -0.5), { minutes: 10 }),
    );
    const { air } = with_(logged);
    for (let minute = FIRST + 90; minute < FIRST + 2000; minute += 5) {
      expect(celsiusAt(air.expected, minute)).toBeGreaterThan(11.3);
      expect(celsiusAt(air.expected, minute)).toBeLessThan(12.7);
    }
  });

  it('of a surface correct it and leave the air as it is', () => {
    const surface = readingOf(-300, 3, { of: 'surface' });
    const skin = { outdoorShare: 0.5, lagHours: 2 };
    for (const more of [{}, { skin }]) {
      const make = (readings: readonly SpaceReading[]): SpaceClimate =>
        spaceClimate(settingsOf(followed(3), more), weather, readings, utc, spanOf(3, FIRST));
      const read = make([surface, readingOf(-300, 16)]);
      expect(celsiusAt(read.surface.expected, -300)).toBeCloseTo(3, 9);
      expect(celsiusAt(read.air.expected, -300)).toBeCloseTo(16, 9);
      expect(make([surface]).air.expected.celsius).toEqual(make([]).air.expected.celsius);
    }
  });
});

describe('readings that cannot be used', () => {
  const codes = (readings: readonly SpaceReading[], now = 0): string[] =>
    readingFaults(readings, now).map(({ code, path }) => `${code} ${path}`);

  it('are later than now, by how much', () => {
    expect(codes([readingOf(0, 15), readingOf(-20, 15, { minutes: 20, of: 'surface' })])).toEqual(
      [],
    );
    const [late] = readingFaults([readingOf(35, 15, { id: 'noon' })], 0);
    expect(late).toMatchObject({ code: 'cure.reading', path: 'readings[0].at', value: 15 });
    expect(late.message).toBe(
      'Reading noon (air of shed) ends 35 minutes from now: nobody has read it yet',
    );
  });

  it('are in another unit, and say what they would be', () => {
    const found = readingFaults(
      [
        readingOf(-300, 68),
        readingOf(-200, 291),
        readingOf(-100, 15, { humidity: 0.65 }),
        readingOf(-50, 61, { of: 'surface' }),
      ],
      0,
    );
    expect(found.map(({ code, path, value }) => [code, path, value])).toEqual([
      ['cure.implausible', 'readings[0].celsius', 68],
      ['cure.implausible', 'readings[1].celsius', 291],
      ['cure.implausible', 'readings[2].humidity', 0.65],
      ['cure.implausible', 'readings[3].celsius', 61],
    ]);
    expect(found[0].message).toContain('r-300');
    expect(found.map(({ cure }) => cure)).toEqual([
      'Give degrees Celsius: if 68 is in degrees Fahrenheit, it is 20.0 °C.',
      'Give degrees Celsius: if 291 is in kelvin, it is 17.9 °C.',
      'Give percent: if 0.65 is a share of 1, it is 65 %.',
      'Give degrees Celsius: if 61 is in degrees Fahrenheit, it is 16.1 °C.',
    ]);
  });

  it('overlap another of the same thing in the same space, and no other', () => {
    const long = readingOf(-500, 15, { id: 'long', minutes: 120 });
    expect(codes([long, readingOf(-380, 15)])).toEqual([]);
    expect(codes([readingOf(-381, 15), long])).toEqual(['cure.reading readings[1].at']);
    expect(codes([long, readingOf(-381, 15)])).toEqual(['cure.reading readings[1].at']);
    expect(codes([long, readingOf(-400, 15, { of: 'surface' })])).toEqual([]);
    expect(codes([long, readingOf(-400, 15, { space: 'bench' })])).toEqual([]);
    expect(codes([readingOf(-9, 15), readingOf(-9, 16)])).toEqual(['cure.reading readings[1].at']);
    // A short one inside does not hide the rest of a long one.
    expect(codes([long, readingOf(-490, 15), readingOf(-400, 15)])).toEqual([
      'cure.reading readings[1].at',
      'cure.reading readings[2].at',
    ]);
    expect(readingFaults([long, readingOf(-400, 14)], 0)[0].message).toBe(
      'Reading r-400 (air of shed) overlaps long of the same',
    );
  });

  it('make no climate', () => {
    const overlapping = [readingOf(-500, 15, { minutes: 120 }), readingOf(-400, 15)];
    expect(() => with_(overlapping)).toThrow(expect.objectContaining({ code: 'cure.reading' }));
    expect(() => with_([readingOf(-500, 59)])).toThrow(
      expect.objectContaining({ code: 'cure.implausible' }),
    );
  });
});
