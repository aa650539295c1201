import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { celsiusAt, type TemperatureBand } from '../clock/series.ts';
import { changesCost } from './cost.ts';
import { spaceClimate } from './make.ts';
import { powerAt, powerFaults } from './power.ts';
import { regimesOf } from './regimes.ts';
import { settingsFaults } from './settings-faults.ts';
import type { Climate, SpaceReading } from './settings.ts';
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
import { outdoorDrive, scheduleDrive, track } from './track.ts';

const cold = weatherOf(-60 * 100, 200, () => 5);

describe('heater', () => {
  const heater = changeOf('heater', 600, 1200, { celsius: 20 });
  const { air } = spaceClimate(
    settingsOf(followed(4), { changes: [heater] }),
    cold,
    [],
    utc,
    spanOf(2),
  );

  it('keeps a space at least so warm while it is on, and leaves its warmth behind', () => {
    expect([590, 610, 1190].map((minute) => celsiusAt(air.expected, minute))).toEqual([5, 20, 20]);
    // Four hours after it is off 1/e of the 15 degrees is left (calculated).
    expect(celsiusAt(air.expected, 1440)).toBeCloseTo(5 + 15 * Math.exp(-1), 9);
  });

  it('does nothing to a space that is warmer by itself', () => {
    const hot = weatherOf(-6000, 200, () => 26);
    const climate = spaceClimate(
      settingsOf(followed(4), { changes: [heater] }),
      hot,
      [],
      utc,
      spanOf(1),
    );
    expect(Array.from(climate.air.warm.celsius).every((c) => Math.abs(c - 26) < 1e-9)).toBe(true);
  });

  it('makes a colder skin of a hull sweatier than its air tells: the skin stays behind', () => {
    const skin = { outdoorShare: 0.6, lagHours: 2 };
    const settings = settingsOf(followed(4), { skin, changes: [heater] });
    const { surface } = spaceClimate(settings, cold, [], utc, spanOf(2));
    // Air 20, outdoors 5: towards 0.4 * 20 + 0.6 * 5 = 11, from 5, with two hours (calculated).
    expect(celsiusAt(surface.expected, 600 + 240)).toBeCloseTo(11 - 6 * Math.exp(-2), 1);
    expect(celsiusAt(surface.expected, 590)).toBeCloseTo(5, 6);
  });
});

describe('band of a heated space in unknown weather', () => {
  const heater = changeOf('heater', 600, 1200, { celsius: 20 });
  // The table ends at minute 540: 6 degrees either way from there on.
  const short = weatherOf(-6000, 110, () => 5);
  const make = (
    bandC: number | null,
    readings: readonly SpaceReading[] = [],
  ): ReturnType<typeof spaceClimate> => {
    const skin = { outdoorShare: 0.5, lagHours: 0 };
    const settings = settingsOf(followed(4), { bandC, skin, changes: [heater] });
    return spaceClimate(settings, short, readings, utc, spanOf(2));
  };
  const at = (band: TemperatureBand, minute: number): number[] =>
    [band.cold, band.warm].map((series) => celsiusAt(series, minute));

  it('is no colder than the heater keeps, give or take what heating is off by', () => {
    const { air, surface } = make(null);
    expect(at(air, 590)).toEqual([5 - 6, 5 + 6]);
    expect(at(air, 900)).toEqual([19, 26]);
    // Half of it has the weather on its other side: 12.5, colder by half of 1 and half of 6.
    expect(at(surface, 900)).toEqual([12.5 - 3.5, 12.5 + 6]);
    // From when it is off to the grid's next point both ways.
    expect(at(air, 1200)[0]).toBeLessThan(15);
    expect(at(make(2).air, 900)).toEqual([18, 24]);
  });

  it('is as wide as the weather where a reading shows that the heater does not cope', () => {
    const { air } = make(null, [readingOf(700, 14)]);
    // 6 degrees down to 14 at the reading, of which e^-0.5 is left after two of four hours.
    const expected = 20 - 6 * Math.exp(-0.5);
    const width = Math.sqrt(0.25 + (36 - 0.25) * (1 - Math.exp(-1)));
    expect(celsiusAt(air.expected, 820)).toBeCloseTo(expected, 6);
    expect(at(air, 820)[0]).toBeCloseTo(expected - width, 6);
  });
});

describe('tent', () => {
  it('takes the place of lag and warmth while it is up', () => {
    const tent = changeOf('tent', 600, 2040, { lagHours: 2, warmerBy: 6 });
    const { air } = spaceClimate(
      settingsOf(followed(1, 1), { changes: [tent] }),
      cold,
      [],
      utc,
      spanOf(3),
    );
    const at = (minute: number): number => celsiusAt(air.expected, minute);
    expect(at(600)).toBeCloseTo(6, 9);
    expect(at(720)).toBeCloseTo(11 - 5 * Math.exp(-1), 9);
    expect(at(2100)).toBeCloseTo(6 + (at(2040) - 6) * Math.exp(-1), 9);
  });

  it('decides how long a reading in it is remembered', () => {
    const tent = changeOf('tent', -600, 2040, { lagHours: 6, warmerBy: 6 });
    const settings = settingsOf(followed(0), { changes: [tent] });
    const { air } = spaceClimate(settings, cold, [readingOf(0, 8)], utc, spanOf(2, -2880));
    // Reckoned at 11: 3 degrees decay with the six hours of the tent, not at once as without it.
    const before = spaceClimate(settings, cold, [], utc, spanOf(2, -2880)).air.expected;
    const off = (minute: number): number =>
      celsiusAt(before, minute) - celsiusAt(air.expected, minute);
    expect(off(360) / off(0)).toBeCloseTo(Math.exp(-1), 6);
  });

  it('counts as it was set up last, and as before where it says nothing', () => {
    const first = changeOf('tent', 0, 100, { lagHours: 9, warmerBy: 3 });
    const second = changeOf('tent', 50, 80, { warmerBy: 7 });
    expect(regimesOf(followed(2, 1), [second, first])).toEqual([
      { from: -Infinity, tau: 120, warmerBy: 1, atLeastC: -Infinity },
      { from: 0, tau: 540, warmerBy: 3, atLeastC: -Infinity },
      { from: 50, tau: 120, warmerBy: 7, atLeastC: -Infinity },
      { from: 80, tau: 540, warmerBy: 3, atLeastC: -Infinity },
      { from: 100, tau: 120, warmerBy: 1, atLeastC: -Infinity },
    ]);
  });
});

describe('lines of a climate that changes', () => {
  const kinds = fc.constantFrom<'heater' | 'tent'>('heater', 'tent');
  const changes = fc.array(
    fc.record({
      kind: kinds,
      from: fc.integer({ min: 0, max: 250 }),
      minutes: fc.integer({ min: 1, max: 200 }),
      celsius: fc.integer({ min: 8, max: 25 }),
      lagHours: fc.constantFrom(0, 0.3, 1, 5),
      warmerBy: fc.integer({ min: -3, max: 6 }),
    }),
    { maxLength: 3 },
  );

  it('never cross a walk in small steps on the wrong side', () => {
    // The walk is explicit Euler with twentieths of a minute: off by a few hundredths.
    const small = 0.05;
    const tolerance = 0.15;
    fc.assert(
      fc.property(
        changes,
        fc.constantFrom(0, 0.2, 1, 6),
        fc.array(fc.integer({ min: -5, max: 20 }), { minLength: 8, maxLength: 8 }),
        fc.integer({ min: -25, max: 25 }),
        (list, lagHours, hours, shift) => {
          const made = list.map(({ from, minutes, ...more }) =>
            changeOf(more.kind, from, from + minutes, more),
          );
          const regimes = regimesOf(followed(lagHours), made);
          const outdoors = (minute: number): number => {
            const place = Math.max(0, Math.min(6.999, (minute - shift + 60) / 60));
            const k = Math.floor(place);
            return hours[k] + (place - k) * (hours[k + 1] - hours[k]);
          };
          const bends = [0, 1, 2, 3, 4, 5, 6].map((k) => k * 60 - 60 + shift);
          const found = track(outdoorDrive(outdoors, bends), regimes, {
            first: 0,
            step: 10,
            n: 31,
          });
          const wrong = { above: -Infinity, below: -Infinity };
          let body = found.expected[0];
          for (let i = 0; i < 300 / small; i++) {
            const minute = i * small;
            const { tau, warmerBy, atLeastC } =
              regimes.findLast(({ from }) => from <= minute + 1e-9) ?? regimes[0];
            const drive = outdoors(minute) + warmerBy;
            body = Math.max(atLeastC, tau === 0 ? drive : body);
            const at = (series: Float64Array): number =>
              celsiusAt({ shape: 'lines', start: 0, step: 10, celsius: series }, minute);
            if (i > 0) {
              wrong.above = Math.max(wrong.above, at(found.low) - body);
              wrong.below = Math.max(wrong.below, body - at(found.high));
            }
            if (tau > 0) body = Math.max(atLeastC, body + ((drive - body) / tau) * small);
          }
          expect(wrong.above).toBeLessThan(tolerance);
          expect(wrong.below).toBeLessThan(tolerance);
          for (let k = 0; k < 31; k++) {
            expect(found.low[k]).toBeLessThanOrEqual(found.expected[k]);
            expect(found.expected[k]).toBeLessThanOrEqual(found.high[k]);
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('are the truth itself at points away from every change', () => {
    const drive = scheduleDrive([
      { from: 0, celsius: 10 },
      { from: 33, celsius: 20 },
    ]);
    const regimes = regimesOf(followed(0), []);
    const { low, expected, high } = track(drive, regimes, { first: 0, step: 10, n: 8 });
    expect(Array.from(low)).toEqual([10, 10, 10, 10, 10, 20, 20, 20]);
    expect(Array.from(high)).toEqual([10, 10, 10, 20, 20, 20, 20, 20]);
    // Three tenths into its step: 0.2 of the jump is seen a point early, so the integral is kept.
    expect(Array.from(expected)).toEqual([10, 10, 10, 12, 20, 20, 20, 20]);
  });
});

describe('power', () => {
  const uses = [
    { name: 'Shed heater', path: 'spaces[0].changes[0]', from: 0, to: 600, watts: 3000 },
    { name: 'Tent heater', path: 'spaces[1].changes[0]', from: 300, to: 900, watts: 2000 },
    { name: 'Dryer', path: 'spaces[1].changes[1]', from: 600, to: 700, watts: 800 },
  ];

  it('adds up what is on, to the minute', () => {
    expect([0, 299, 300, 599, 600, 699, 700, 900].map((minute) => powerAt(uses, minute))).toEqual([
      3000, 3000, 5000, 5000, 2800, 2800, 2000, 0,
    ]);
  });

  it('names what is on together, the sum and the moment', () => {
    const when = (minute: number): string => `minute ${minute}`;
    expect(powerFaults(uses, 5000, when)).toEqual([]);
    expect(powerFaults(uses, 4999, when)).toEqual([
      expect.objectContaining({
        path: 'spaces[1].changes[0].watts',
        value: 2000,
        message:
          "At minute 300 Shed heater (3000 W), Tent heater (2000 W) draw 5000 W together, more than the yard's 4999 W",
      }),
    ]);
    expect(powerFaults(uses, 2500, when).map(({ path }) => path)).toEqual([
      'spaces[0].changes[0].watts',
      'spaces[1].changes[0].watts',
      'spaces[1].changes[1].watts',
    ]);
  });
});

describe('cost of changes', () => {
  it('is that of the days begun before the horizon, from now on', () => {
    const cost = (from: number, to: number, horizon = 10_000): number =>
      changesCost([{ from, to, costPerDay: 700 }], horizon);
    expect([cost(0, 1), cost(0, 1440), cost(0, 1441), cost(500, 5000)]).toEqual([
      700, 700, 1400, 2800,
    ]);
    expect(cost(0, 100_000, 2000)).toBe(1400);
    // Set up a day and a half ago: two days are spent, the third begins at minute 720.
    expect(cost(-2160, 2000)).toBe(700);
    expect([cost(-2160, 700), cost(3000, 4000, 2500)]).toEqual([0, 0]);
    expect(
      changesCost(
        [
          { from: 0, to: 1, costPerDay: 5 },
          { from: 0, to: 2000, costPerDay: 7 },
        ],
        3000,
      ),
    ).toBe(19);
  });
});

describe('changes that say nothing', () => {
  it('are refused by name', () => {
    const of = (...changes: ReturnType<typeof changeOf>[]): (() => unknown) => {
      return () => spaceClimate(settingsOf(followed(4), { changes }), cold, [], utc, spanOf(1));
    };
    expect(of(changeOf('heater', 0, 60))).toThrow(/heater keeps no temperature/);
    expect(of(changeOf('tent', 0, 60))).toThrow(/tent changes nothing/);
    expect(of(changeOf('dehumidifier', 0, 60))).toThrow(/keeps no humidity/);
    expect(of(changeOf('heater', 60, 60, { celsius: 20 }))).toThrow(/ends before it begins/);
    expect(of(changeOf('heater', 0, 60, { celsius: 68 }))).toThrow(
      expect.objectContaining({
        code: 'cure.implausible',
        cure: 'Give degrees Celsius: if 68 is in degrees Fahrenheit, it is 20.0 °C. If it is a post-cure, let a heater of the space keep 35 °C or less before it: by that the unit is known.',
      }),
    );
  });
});

describe('a post-cure', () => {
  const codes = (climate: Climate, ...celsius: readonly number[]): string[] => {
    const changes = celsius.map((c, k) => changeOf('heater', k * 60, k * 60 + 60, { celsius: c }));
    return settingsFaults(settingsOf(climate, { changes }), 'space').map(
      ({ path, value }) => `${path} ${String(value)}`,
    );
  };

  it('is believed of a space that is also kept as warm as only Celsius can mean', () => {
    expect(codes(followed(4), 35, 60, 90)).toEqual([]);
    expect(codes(heatedTo(daily('06:00', 80), daily('18:00', 20)))).toEqual([]);
    expect(codes(heatedTo(daily('06:00', 18)), 60)).toEqual([]);
    const { air } = spaceClimate(
      settingsOf(heatedTo(daily('00:00', 20)), {
        changes: [changeOf('heater', 600, 1200, { celsius: 60 })],
      }),
      null,
      [],
      utc,
      spanOf(1),
    );
    expect([590, 900, 1210].map((minute) => celsiusAt(air.expected, minute))).toEqual([20, 60, 20]);
  });

  it('is taken for Fahrenheit where all that the space is kept at might be, and says the way out', () => {
    expect(codes(followed(4), 60)).toEqual(['space.changes[0].celsius 60']);
    // Kept from frost at 45, warmed to 68: no post-cure begins so warm.
    expect(codes(heatedTo(daily('06:00', 68), daily('18:00', 45)))).toEqual([
      'space.climate.setPoints[0].celsius 68',
    ]);
    expect(codes(heatedTo(daily('06:00', 68), daily('18:00', 59)))).toHaveLength(2);
    const [found] = settingsFaults(settingsOf(heatedTo(daily('06:00', 60))), 'space');
    expect(found.cure).toContain('If it is a post-cure, let a heater of the space keep 35 °C');
  });

  it('has an end to it', () => {
    expect(codes(heatedTo(daily('06:00', 18)), 91, -41)).toEqual([
      'space.changes[0].celsius 91',
      'space.changes[1].celsius -41',
    ]);
    const [found] = settingsFaults(settingsOf(heatedTo(daily('06:00', 291))), 'space');
    expect(found.cure).toBe('Give degrees Celsius: if 291 is in kelvin, it is 17.9 °C.');
  });
});
