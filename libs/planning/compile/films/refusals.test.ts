import { expect, it } from 'vitest';
import type { SpaceClimate } from '#cure/climate/space-climate.ts';
import { cureClock } from '#cure/clock/cure-clock.ts';
import type { TemperatureSeries } from '#cure/clock/series.ts';
import { cureMaterialOf, limitsOf, tableLaw } from '#cure/testing/cure-material.ts';
import { figure, level } from '#cure/evidence/figure.ts';
import { forbiddenStarts } from '#cure/windows/forbidden.ts';
import type { Limits } from '#cure/material/material.ts';
import { normalise } from '#calendar/intervals.ts';
import { forWork, refusedBy, REFUSALS } from './refusals.ts';

const horizon = 9 * 1440;

const lines = (at: (hour: number) => number): TemperatureSeries => ({
  shape: 'lines',
  start: -1440,
  step: 10,
  celsius: Float64Array.from({ length: (horizon + 1440) / 10 + 1 }, (_, k) => at(k / 6)),
});

/** Days from 5 to 35 degrees, each a little colder than the one before, and damp nights. */
const air = lines((hour) => 20 - hour / 60 + 15 * Math.sin((2 * Math.PI * hour) / 24));
const band = { cold: air, expected: air, warm: air };
const climate: SpaceClimate = {
  air: band,
  surface: band,
  humidity: lines((hour) => 70 - 25 * Math.sin((2 * Math.PI * hour) / 24)).celsius,
  dewPointC: null,
  assumed: [],
};

const asking = (limits: Partial<Limits>) =>
  cureMaterialOf({
    milestones: {
      'tack-free': tableLaw([
        [5, 400],
        [35, 60],
      ]),
    },
    limits: limitsOf(10, 32, limits),
  });

/** All that a material may ask for. */
const everything: Partial<Limits> = {
  belowMinimum: 'spoils',
  maximumHumidity: level(85, 'sheet', 'made up', 0),
  dampAir: 'refuse',
  preheatHours: figure(2, 'sheet', 'made up', 1),
  holdHours: figure(3, 'sheet', 'made up', 1),
};

it('refuses what the cure library does for work of any length, told apart by reasons', () => {
  const material = asking(everything);
  const safeClock = () => cureClock(material, 'tack-free', 'open', band);
  const extremes = { low: -10, high: 40 };
  const laying = { climate, surface: band, safeClock, extremes };
  const aMinute = refusedBy(material, laying, horizon);
  expect(aMinute.map(({ kind }) => kind)).toEqual([...REFUSALS]);
  for (const minutes of [1, 2, 17, 60, 333, 1200]) {
    const found = forWork(aMinute, minutes, horizon);
    expect(found.map(({ kind }) => kind)).toEqual([...REFUSALS]);
    const all = normalise(found.flatMap(({ spans }) => spans));
    expect(all).toEqual(forbiddenStarts(material, climate, 'tack-free', minutes, horizon));
    expect(all.length).toBeGreaterThan(0);
  }
  // One by one: as if the material asked for that alone.
  const hold = forWork(aMinute, 60, horizon).find(({ kind }) => kind === 'hold');
  const only = asking({ holdHours: everything.holdHours ?? null });
  const cool = { ...only, limits: { ...only.limits, maximumC: level(99, 'sheet', 'made up', 0) } };
  expect(hold?.spans).toEqual(forbiddenStarts(cool, climate, 'tack-free', 60, horizon));
});

it('asks nothing of a climate that never misses it', () => {
  const material = asking(everything);
  const safeClock = () => cureClock(material, 'tack-free', 'open', band);
  const laying = { climate, surface: band, safeClock, extremes: { low: 10, high: 32 } };
  expect(refusedBy(material, laying, horizon).map(({ kind }) => kind)).toEqual(['damp']);
});
