import { describe, expect, it } from 'vitest';

import { spaceClimate } from '../climate/make.ts';
import type { SpaceClimate } from '../climate/space-climate.ts';
import { changeOf, daily, heatedTo, settingsOf, spanOf, utc } from '../climate/testing/settings.ts';
import type { SetPoint } from '../climate/settings.ts';
import { mouldingShopReasons } from './moulding-shop.ts';

/** Iranian Classification Society, Rules for FRP Ships (2014), ch. 3 sec. 1, 102 (read). */
const shop = (setPoints: readonly SetPoint[], percent: number | null): SpaceClimate =>
  spaceClimate(
    settingsOf(heatedTo(...setPoints), {
      humidity: percent === null ? null : { kind: 'held', percent },
      // A cold week before it.
      changes: [changeOf('heater', 0, 10_000, { celsius: 18 })],
    }),
    null,
    [],
    utc,
    spanOf(4, -1440),
  );

const at = (
  setPoints: readonly SetPoint[],
  percent: number | null,
  hour: number,
  sprayed = false,
): string[] => mouldingShopReasons(shop(setPoints, percent), hour * 60, sprayed);

describe('moulding shop', () => {
  const cold = [daily('00:00', 12)];

  it('has been at 18 degrees or more for 24 hours', () => {
    expect(at(cold, 60, 25)).toEqual([]);
    expect(at(cold, 60, 23)).toEqual(['12.0 °C in the 24 hours before, less than 18 °C']);
  });

  it('swings by no more than 3 degrees either way in 24 hours', () => {
    expect(at([daily('06:00', 24), daily('18:00', 18)], 60, 60)).toEqual([]);
    expect(at([daily('06:00', 25), daily('18:00', 18)], 60, 60)).toEqual([
      'a swing of ±3.5 degrees in the 24 hours before, more than ±3',
    ]);
  });

  it('has at most 80 % humidity, and at least 40 % where it is sprayed in', () => {
    const warm = [daily('00:00', 20)];
    expect([80, 60, 40].map((percent) => at(warm, percent, 60, true))).toEqual([[], [], []]);
    expect(at(warm, 81, 60)).toEqual(['81 % humidity, more than 80 %']);
    expect(at(warm, 39, 60)).toEqual([]);
    expect(at(warm, 39, 60, true)).toEqual(['39 % humidity, less than 40 % for spraying']);
    expect(at(warm, null, 60)).toEqual(['the humidity is not known']);
  });
});
