import { describe, expect, it } from 'vitest';

import { dewPoint, saturationHPa } from '../air/dew-point.ts';
import { celsiusAt } from '../clock/series.ts';
import { hourly } from './hourly.ts';
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
  spanOf,
  utc,
  weatherOf,
} from './testing/settings.ts';

const warm = heatedTo(daily('00:00', 20));
const outdoors = { kind: 'outdoors', addsHPa: 0 } as const;
const damp = weatherOf(
  -6000,
  200,
  () => 5,
  () => 90,
);

const make = (
  settings: ClimateSettings,
  weather: Weather | null = damp,
  readings: readonly SpaceReading[] = [],
): SpaceClimate => spaceClimate(settings, weather, readings, utc, spanOf(2, -1440));

const rhAt = ({ air, humidity }: SpaceClimate, minute: number): number =>
  celsiusAt({ ...air.expected, celsius: humidity ?? [] }, minute);

describe('moisture', () => {
  it('keeps the vapour of the outdoors when the air is warmed, so that it is drier', () => {
    const climate = make(settingsOf(warm, { humidity: outdoors }));
    // 90 % at 5 degrees is 90 * es(5) / es(20) at 20: 33.6 % (calculated, Magnus), dew point unchanged.
    expect(rhAt(climate, 0)).toBeCloseTo((90 * saturationHPa(5)) / saturationHPa(20), 9);
    expect(rhAt(climate, 0)).toBeCloseTo(33.6, 1);
    expect(climate.dewPointC?.[0]).toBeCloseTo(dewPoint(5, 90), 9);
  });

  it('adds what people and wet work give off', () => {
    const climate = make(settingsOf(warm, { humidity: { kind: 'outdoors', addsHPa: 4 } }));
    const vapour = 0.9 * saturationHPa(5) + 4;
    expect(rhAt(climate, 0)).toBeCloseTo((100 * vapour) / saturationHPa(20), 9);
  });

  it('condenses what is more than the air can hold', () => {
    const cellar = make(settingsOf(followed(0, -6), { humidity: outdoors }));
    expect(rhAt(cellar, 0)).toBe(100);
    expect(cellar.dewPointC?.[0]).toBeCloseTo(-1, 9);
  });

  it('is held, or kept down by a dehumidifier while it is on', () => {
    const held = make(settingsOf(warm, { humidity: { kind: 'held', percent: 55 } }), null);
    expect(rhAt(held, 0)).toBeCloseTo(55, 9);
    const dryer = changeOf('dehumidifier', 0, 600, { percent: 60 });
    const gains = { kind: 'outdoors', addsHPa: 12 } as const;
    const dried = make(settingsOf(warm, { humidity: gains, changes: [dryer] }));
    expect([-60, 300, 700].map((minute) => Math.round(rhAt(dried, minute)))).toEqual([85, 60, 85]);
  });

  it('is unknown where neither the space nor the weather says it', () => {
    expect(make(settingsOf(warm))).toMatchObject({ humidity: null, dewPointC: null });
    const dry = weatherOf(-6000, 200, () => 5);
    expect(make(settingsOf(warm, { humidity: outdoors }), dry).humidity).toBeNull();
    expect(make(settingsOf(warm, { humidity: outdoors }), null).humidity).toBeNull();
  });

  it('gives what was read, and returns to the reckoning', () => {
    const settings = settingsOf(warm, { humidity: outdoors });
    const reading = readingOf(-60, 18, { humidity: 62 });
    const climate = make(settings, damp, [reading]);
    expect(rhAt(climate, -60)).toBeCloseTo(62, 6);
    expect(rhAt(climate, 0)).toBeLessThan(55);
    expect(rhAt(climate, 1400)).toBeCloseTo(33.6, 1);
    // What is read beside a cold surface is still the humidity of the air.
    const beside = make(settings, damp, [{ ...reading, of: 'surface', celsius: 8 }]);
    expect(rhAt(beside, -60)).toBeCloseTo(62, 6);
    // Between two points vapour bends a little: within a tenth of a point.
    const between = make(settings, damp, [{ ...reading, at: -57 }]);
    expect(Math.abs(rhAt(between, -57) - 62)).toBeLessThan(0.1);
  });
});

describe('hours of a space', () => {
  // A tent over a hull at 5 degrees is heated to 20; its people and the wet work add vapour.
  const skin = { outdoorShare: 0.7, lagHours: 3 };
  const heater = changeOf('heater', 0, 2880, { celsius: 20 });
  const hull = make(
    settingsOf(followed(4), {
      skin,
      bandC: 1,
      humidity: { kind: 'outdoors', addsHPa: 5 },
      changes: [heater],
    }),
  );

  it('say that a cold part sweats in a warm room', () => {
    const hours = hourly(hull, 0, 2880);
    expect(hours).toHaveLength(49);
    expect(hours.map(({ minute }) => minute).slice(0, 3)).toEqual([0, 60, 120]);
    const [first] = hours.slice(1);
    // Vapour 7.85 + 5 hPa: dew point 10.6; the skin has barely left 5 degrees, the air is at 20.
    expect(first.air.expected).toBeCloseTo(20, 6);
    expect(first.dewPointC).toBeCloseTo(10.65, 1);
    expect(first.surface.expected).toBeLessThan(8);
    expect(first.marginC).toBeLessThan(0);
    // Even when it has settled, at 0.3 * 20 + 0.7 * 5 = 9.5, it is below the dew point.
    const last = hours[40];
    expect(last.surface.expected).toBeCloseTo(9.5, 2);
    expect(last.marginC).toBeLessThan(0);
    expect(last.leastMarginC ?? 0).toBeCloseTo((last.marginC ?? 0) - 1, 3);
    // A part that is as warm as the room does not sweat.
    expect(last.air.expected - (last.dewPointC ?? 99)).toBeGreaterThan(9);
  });

  it('leave open what is not known of the air, and mark assumed weather', () => {
    const [hour] = hourly(make(settingsOf(warm)), 0, 0);
    expect(hour).toMatchObject({ humidity: null, dewPointC: null, marginC: null, assumed: false });
    const short = weatherOf(-1440, 25, () => 5);
    const hours = hourly(make(settingsOf(followed(1)), short), 0, 180);
    expect(hours.map(({ assumed }) => assumed)).toEqual([true, true, true, true]);
  });
});
