import { describe, expect, it } from 'vitest';

import { celsiusAt } from '../clock/series.ts';
import { ASSUMED_WIDER, spaceClimate, USUAL_BAND_C } from './make.ts';
import {
  daily,
  followed,
  heatedTo,
  settingsOf,
  spanOf,
  utc,
  weatherOf,
} from './testing/settings.ts';
import { outdoorsOf } from './weather.ts';

describe('outdoor table', () => {
  const day = weatherOf(0, 27, (hour) => (hour < 25 ? hour : hour + 75));

  it('is straight between hours and repeats the same hour of the nearest day outside', () => {
    const { celsius, assumed } = outdoorsOf(day);
    expect(celsius(90)).toBe(1.5);
    // The last day known runs from 03:00 to 02:00, with 100 at 01:00 and 101 at 02:00.
    expect([27, 47, 49, 50, 51].map((hour) => celsius(hour * 60))).toEqual([3, 23, 100, 101, 3]);
    expect([-1, -24, -25].map((hour) => celsius(hour * 60))).toEqual([23, 0, 23]);
    // Over the seam as over any other hour.
    expect(celsius(26.5 * 60)).toBe(52);
    expect(assumed(-60, 1620)).toEqual([
      { start: -60, end: 0 },
      { start: 1560, end: 1620 },
    ]);
    expect(assumed(0, 1560)).toEqual([]);
    expect(assumed(3000, 4000)).toEqual([{ start: 3000, end: 4000 }]);
  });

  it('holds its ends where it is shorter than a day', () => {
    const { celsius } = outdoorsOf(weatherOf(0, 2, (hour) => 3 + 2 * hour));
    expect([600, 1440, 1470].map(celsius)).toEqual([3, 3, 4]);
    expect(celsius(-60)).toBe(5);
  });

  it('refuses to be empty, and a space that follows it to have none', () => {
    const space = settingsOf(followed(2));
    for (const weather of [null, weatherOf(0, 0, () => 0)])
      expect(() => spaceClimate(space, weather, [], utc, spanOf(1))).toThrow(/outdoor/);
    const skin = { outdoorShare: 0.5, lagHours: 1 };
    const warm = settingsOf(heatedTo(daily('00:00', 20)), { skin });
    expect(() => spaceClimate(warm, null, [], utc, spanOf(1))).toThrow(/outdoors/);
  });

  it('names a column in another unit or too short', () => {
    const space = settingsOf(followed(2));
    const summer = weatherOf(0, 30, (hour) => (hour === 14 ? 86 : 45));
    expect(() => spaceClimate(space, summer, [], utc, spanOf(1))).toThrow(
      expect.objectContaining({
        code: 'cure.implausible',
        cure: 'Give degrees Celsius: if 86 is in degrees Fahrenheit, it is 30.0 °C.',
        faults: [expect.objectContaining({ path: 'outdoor.celsius[14]', value: 86 })],
      }),
    );
    const short = { ...weatherOf(0, 30, () => 8), humidity: [70, 80] };
    expect(() => spaceClimate(space, short, [], utc, spanOf(1))).toThrow(
      /2 humidities stand beside 30/,
    );
  });
});

describe('band of a forecast', () => {
  const known = weatherOf(-6000, 124, () => 8);
  const width = (climate: ReturnType<typeof spaceClimate>, minute: number): number =>
    celsiusAt(climate.air.warm, minute) - celsiusAt(climate.air.expected, minute);

  it('is as wide as the space says, or as its kind usually is', () => {
    const of = (bandC: number | null): number[] =>
      [heatedTo(daily('00:00', 20)), followed(2)].map((climate) =>
        width(spaceClimate(settingsOf(climate, { bandC }), known, [], utc, spanOf(1)), 600),
      );
    expect(of(0.5)).toEqual([0.5, 0.5]);
    expect(of(null)).toEqual([USUAL_BAND_C.heated, USUAL_BAND_C.outdoors]);
  });

  it('is wider, and marked, where a repeated day stands for the weather', () => {
    const settings = settingsOf(followed(2), { bandC: 1 });
    const climate = spaceClimate(settings, known, [], utc, spanOf(3));
    // The table ends at hour 23.
    expect(climate.assumed).toEqual([{ start: 1380, end: 4320 }]);
    expect([1370, 1400, 4000].map((minute) => width(climate, minute))).toEqual([
      1,
      ASSUMED_WIDER,
      ASSUMED_WIDER,
    ]);
  });

  it('marks nothing in a heated space, unless its moisture or skin comes from outdoors', () => {
    const heated = heatedTo(daily('00:00', 20));
    const weather = weatherOf(
      0,
      24,
      () => 5,
      () => 80,
    );
    const humidity = { kind: 'outdoors', addsHPa: 0 } as const;
    const assumed = [{ start: 1380, end: 2880 }];
    const of = (more: object): unknown =>
      spaceClimate(settingsOf(heated, more), weather, [], utc, spanOf(2)).assumed;
    expect(of({})).toEqual([]);
    expect(of({ humidity })).toEqual(assumed);
    expect(of({ skin: { outdoorShare: 0.3, lagHours: 0 } })).toEqual(assumed);
  });
});
