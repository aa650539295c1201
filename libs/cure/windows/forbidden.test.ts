import { describe, expect, it } from 'vitest';

import { spaceClimate } from '../climate/make.ts';
import type { SpaceClimate } from '../climate/space-climate.ts';
import {
  changeOf,
  daily,
  followed,
  heatedTo,
  settingsOf,
  spanOf,
  utc,
  weatherOf,
} from '../climate/testing/settings.ts';
import { certain, type Span, type TemperatureSeries } from '../clock/series.ts';
import { level } from '../evidence/figure.ts';
import type { CureMaterial, Limits } from '../material/material.ts';
import { cureMaterialOf, limitsOf, tableLaw } from '../testing/cure-material.ts';
import { pipeCoating } from '../testing/published.ts';
import { forbiddenStarts } from './forbidden.ts';
import { meeting, stretches } from './forbidden-stretches.ts';

const made = (value: number): ReturnType<typeof level> =>
  level(value, 'sheet', 'made up for a test');

const dry = (series: TemperatureSeries): SpaceClimate => ({
  air: certain(series),
  surface: certain(series),
  humidity: null,
  dewPointC: null,
  assumed: [],
});

const withLimits = (material: CureMaterial, limits: Partial<Limits>): CureMaterial => ({
  ...material,
  limits: { ...material.limits, ...limits },
});

describe('stretches', () => {
  it('begin and end where lines cross the limit, and touching it is none', () => {
    const lines: TemperatureSeries = {
      shape: 'lines',
      start: 100,
      step: 10,
      celsius: [20, 10, 18, 18, 19],
    };
    expect(stretches(lines, 18, 'below')).toEqual([{ start: 102, end: 120 }]);
    expect(stretches(lines, 18, 'above')).toEqual([
      { start: -Infinity, end: 102 },
      { start: 130, end: Infinity },
    ]);
    expect(stretches({ ...lines, shape: 'steps' }, 18, 'below')).toEqual([
      { start: 110, end: 120 },
    ]);
    expect(stretches({ ...lines, celsius: [5] }, 18, 'below')).toEqual([
      { start: -Infinity, end: Infinity },
    ]);
  });
});

describe('whole minutes that meet a stretch', () => {
  it('are those before its end and reaching beyond its beginning', () => {
    expect(meeting({ start: 10, end: 20 }, 1)).toEqual({ start: 10, end: 20 });
    expect(meeting({ start: 10.4, end: 19.6 }, 5)).toEqual({ start: 6, end: 20 });
  });

  it('do not change for the rounding of a crossing', () => {
    for (const noise of [-1e-9, 0, 1e-9])
      expect(meeting({ start: 10 + noise, end: 20 + noise }, 3)).toEqual({ start: 8, end: 20 });
  });
});

describe('starts that the warmth forbids', () => {
  // 27 degrees, but 2 from minute 600 to 1200 and 50 from 1800 to 2400.
  const night: TemperatureSeries = {
    shape: 'steps',
    start: 0,
    step: 600,
    celsius: [27, 2, 27, 50, 27],
  };
  const spoiling = withLimits(pipeCoating, { belowMinimum: 'spoils' });

  it('keep a spoiling film out of the cold from its start until it is safe', () => {
    // Gel in 30 min at 27 degC by the chart: 20 min of work must start by 550. Above 43 degC nothing starts.
    expect(forbiddenStarts(spoiling, dry(night), 'gel', 20, 3000)).toEqual([
      { start: 551, end: 1200 },
      { start: 1781, end: 2400 },
    ]);
    expect(forbiddenStarts(pipeCoating, dry(night), 'gel', 20, 3000)).toEqual([
      { start: 1781, end: 2400 },
    ]);
  });

  it('end at the minute at which a line crosses the limit', () => {
    // From 0 to 10 degrees in 100 minutes: 4 degrees at minute 40, which may be begun.
    const warming: TemperatureSeries = {
      shape: 'lines',
      start: 0,
      step: 100,
      celsius: [0, 10, 10],
    };
    expect(forbiddenStarts(spoiling, dry(warming), 'gel', 1, 400)).toEqual([{ start: 0, end: 40 }]);
  });

  it('reckon with the cold side for the minimum and the warm side for the maximum', () => {
    const band = (celsius: number, bandC: number): SpaceClimate =>
      spaceClimate(
        settingsOf(heatedTo(daily('00:00', celsius)), { bandC }),
        null,
        [],
        utc,
        spanOf(1),
      );
    const all: Span[] = [{ start: 0, end: 1441 }];
    const of = (celsius: number, bandC: number): Span[] =>
      forbiddenStarts(spoiling, band(celsius, bandC), 'gel', 5, 1440);
    expect([of(5, 1), of(5, 1.1), of(42, 1), of(42, 1.1)]).toEqual([[], all, [], all]);
  });

  it('meet a surface that the sun has made hotter than the air, as well as hot air', () => {
    const hours = (hot: number): TemperatureSeries => ({
      shape: 'steps',
      start: 0,
      step: 600,
      celsius: [25, hot, 25],
    });
    for (const climate of [
      { ...dry(hours(30)), surface: certain(hours(50)) },
      { ...dry(hours(50)), surface: certain(hours(30)) },
    ])
      expect(forbiddenStarts(pipeCoating, climate, 'gel', 20, 3000)).toEqual([
        { start: 581, end: 1200 },
      ]);
  });

  it('need the time at which a spoiling film is safe', () => {
    expect(() => forbiddenStarts(spoiling, dry(night), 'dust-safe', 20, 3000)).toThrow(
      expect.objectContaining({ code: 'cure.missing' }),
    );
  });
});

describe('preheating and holding', () => {
  const plain = cureMaterialOf({ limits: limitsOf(18, 40) });
  /** Cold until 06:00 of the first day, warm until 18:00 of the third, then cold. */
  const climate = spaceClimate(
    settingsOf(followed(0), {
      changes: [changeOf('heater', 360, 2 * 1440 + 1080, { celsius: 20 })],
    }),
    weatherOf(-6000, 300, () => 10),
    [],
    utc,
    spanOf(4),
  );
  // Lines are at 18 again 8 minutes into the ten that the heater's jump is spread over.
  const WARM = 360 + 8;
  const COLD = 2 * 1440 + 1080 - 8;

  it('forbid nothing to a material that only stalls and asks for neither', () => {
    expect(forbiddenStarts(plain, climate, 'gel', 60, 5760)).toEqual([]);
  });

  it('ask for a moulding shop that has been at 18 degrees for a day', () => {
    // Iranian Classification Society, Rules for FRP Ships (2014), ch. 3 sec. 1, 102 (read):
    // 18 degrees or more, reached 24 hours before laminating.
    const preheated = withLimits(plain, { preheatHours: made(24) });
    expect(forbiddenStarts(preheated, climate, 'gel', 60, 5760)).toEqual([
      { start: 0, end: WARM + 1440 },
      { start: COLD + 1, end: 5761 },
    ]);
  });

  it('keep work out that would not be held warm for long enough', () => {
    // The same rules ask for heat for 48 hours after the last coat.
    const held = withLimits(plain, { holdHours: made(48) });
    expect(forbiddenStarts(held, climate, 'gel', 60, 5760)).toEqual([
      { start: 0, end: WARM },
      { start: COLD - 60 - 48 * 60 + 1, end: 5761 },
    ]);
  });

  it('leave what satisfies both', () => {
    const both = withLimits(plain, { preheatHours: made(24), holdHours: made(12) });
    expect(forbiddenStarts(both, climate, 'gel', 60, 5760)).toEqual([
      { start: 0, end: WARM + 1440 },
      { start: COLD - 60 - 720 + 1, end: 5761 },
    ]);
  });
});

describe('damp air', () => {
  const coat = cureMaterialOf({
    milestones: {
      'dust-safe': tableLaw([
        [0, 120],
        [40, 120],
      ]),
    },
    limits: limitsOf(5, 35, {
      minimumDewMarginC: made(3),
      maximumHumidity: made(85),
      dampAir: 'refuse',
    }),
  });
  /** Two degrees above the dew point from hour 10 to hour 14, else far from it; or so humid. */
  const wet = (share: 'margin' | 'humidity', hours: readonly [number, number]): SpaceClimate => {
    const series: TemperatureSeries = {
      shape: 'lines',
      start: 0,
      step: 60,
      celsius: new Array<number>(49).fill(15),
    };
    const damp = (k: number): boolean => k >= hours[0] && k <= hours[1];
    return {
      ...dry(series),
      humidity: Array.from({ length: 49 }, (_, k) => (share === 'humidity' && damp(k) ? 95 : 65)),
      dewPointC: Array.from({ length: 49 }, (_, k) => (share === 'margin' && damp(k) ? 13 : 8)),
    };
  };

  it('is refused from the first minute of the work until the film is dust-safe', () => {
    // The margin falls from 7 to 2 within the hour before 10:00 and passes 3 at 48 min into it;
    // it is back 12 min into the hour after 14:00. Work of 30 min, dust-safe after 120.
    expect(forbiddenStarts(coat, wet('margin', [10, 14]), 'dust-safe', 30, 2880)).toEqual([
      { start: 588 - 150 + 1, end: 852 },
    ]);
    // From 65 to 95 %: 85 is passed 40 min into the hour.
    expect(forbiddenStarts(coat, wet('humidity', [10, 14]), 'dust-safe', 30, 2880)).toEqual([
      { start: 580 - 150 + 1, end: 860 },
    ]);
  });

  it('is refused through the work where it is not known when the film is safe', () => {
    expect(forbiddenStarts(coat, wet('margin', [10, 14]), 'tack-free', 30, 2880)).toEqual([
      { start: 588 - 30 + 1, end: 852 },
    ]);
  });

  it('is for the verdict where the material only warns, or nothing is known of it', () => {
    const warns = withLimits(coat, { dampAir: 'warn' });
    expect(forbiddenStarts(warns, wet('margin', [10, 14]), 'dust-safe', 30, 2880)).toEqual([]);
    const unknown = { ...wet('margin', [10, 14]), humidity: null, dewPointC: null };
    expect(forbiddenStarts(coat, unknown, 'dust-safe', 30, 2880)).toEqual([]);
  });

  it('is met by the cold skin of a warm tent, until that has warmed', () => {
    const settings = {
      skin: { outdoorShare: 0.2, lagHours: 6 },
      humidity: { kind: 'outdoors', addsHPa: 2 } as const,
      changes: [changeOf('heater', 600, 2880, { celsius: 20 })],
    };
    const weather = weatherOf(
      -6000,
      200,
      () => 5,
      () => 90,
    );
    const of = (bandC: number): Span[] => {
      const climate = spaceClimate(
        settingsOf(followed(2), { ...settings, bandC }),
        weather,
        [],
        utc,
        spanOf(2),
      );
      return forbiddenStarts(coat, climate, 'dust-safe', 30, 2880);
    };
    // 9.85 hPa, a dew point of 6.77 (Magnus, calculated): the skin, from 5 towards 17 degrees, needs
    // 9.77 and has it 6 h * ln(12 / 7.23) = 182 min after the heater; with a degree less 236 min.
    // The heater's jump is ten minutes late on the cold side, which costs the skin up to five.
    const [exact] = of(0);
    expect(exact.start).toBe(0);
    expect(exact.end - (600 + 182)).toBeGreaterThanOrEqual(0);
    expect(exact.end - (600 + 182)).toBeLessThan(8);
    expect(of(1)[0].end - (600 + 236)).toBeGreaterThanOrEqual(0);
    expect(of(1)[0].end - (600 + 236)).toBeLessThan(8);
  });
});
