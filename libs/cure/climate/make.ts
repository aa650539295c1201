import { DomainError } from '#kernel/error.ts';

import type { Span, TemperatureBand, TemperatureSeries } from '../clock/series.ts';
import type { Observed } from './corrected.ts';
import { SETTLED } from './heat-store.ts';
import { moistureOf } from './moisture.ts';
import { readingFaults } from './reading-faults.ts';
import { correct, keptFrom, keptWarm, skinOf, type Reckoned } from './reckoned.ts';
import { regimesOf } from './regimes.ts';
import { heldFrom } from './schedule.ts';
import { settingsFaults, weatherFaults } from './settings-faults.ts';
import type { ClimateSettings, ClimateSpan, SpaceReading, WallClock, Weather } from './settings.ts';
import type { SpaceClimate } from './space-climate.ts';
import { outdoorDrive, scheduleDrive, track, type Drive, type Grid } from './track.ts';
import { outdoorsOf, type Outdoors } from './weather.ts';

/** Degrees either way where a space does not say (common practice, no source). */
export const USUAL_BAND_C = { heated: 1, outdoors: 3 } as const;

/** How many times wider where a repeated day stands for the weather (common practice, no source). */
export const ASSUMED_WIDER = 2;

/** The least time constant of what a reading corrects, minutes (common practice, no source). */
const SHORTEST_MEMORY = 60;

/** Memories after which less than 1 % of a correction is left. */
const FORGOTTEN = 5;

function refuse(
  settings: ClimateSettings,
  weather: Weather | null,
  readings: readonly SpaceReading[],
): void {
  const faults = [
    ...settingsFaults(settings, 'space'),
    ...(weather === null ? [] : weatherFaults(weather, 'outdoor')),
    ...readingFaults(readings, Infinity),
  ];
  if (faults.length === 0) return;
  const [{ code, message, cure }] = faults;
  throw new DomainError(code, message, { cure, faults });
}

function driveOf(
  { climate }: ClimateSettings,
  outdoors: Outdoors | null,
  wall: WallClock,
  from: number,
  to: number,
  step: number,
): Drive {
  if (climate.kind === 'heated') return scheduleDrive(heldFrom(climate.setPoints, wall, from, to));
  const bends = (outdoors?.hours(from, to) ?? []).filter((minute) => minute % step !== 0);
  return outdoorDrive((minute) => outdoors?.celsius(minute) ?? 0, bends);
}

const observedOf = (readings: readonly SpaceReading[], of: SpaceReading['of']): Observed[] =>
  readings
    .filter((reading) => reading.of === of)
    .map(({ at, minutes, celsius }) => ({ at, minutes, value: celsius }));

/**
 * What a space is like from `span.first` to the horizon, as lines between points `span.step`
 * minutes apart.
 *
 * The air follows its schedule or the outdoors (`Climate`), a tent or heater while it is up;
 * beyond the outdoor table the same hour of its nearest day, marked `assumed`. `readings` are
 * those of this space: the series gives what was read (readings closer than half an hour
 * count as one), and the forecast returns to the reckoning with the lag of the space as time
 * constant (that of a tent that stood when it was last read), an hour at least. The band is
 * `bandC` wide either way, what a thermometer may be off by at a reading and most of it again
 * after one such time constant; under assumed weather twice as wide where the weather decides,
 * which it does not below what a heater keeps. Moisture and the dew point are those of the
 * expected air.
 *
 * Throws `cure.implausible`, `cure.reading` or `input.field` with all faults found.
 */
export function spaceClimate(
  settings: ClimateSettings,
  weather: Weather | null,
  readings: readonly SpaceReading[],
  wall: WallClock,
  span: ClimateSpan,
): SpaceClimate {
  refuse(settings, weather, readings);
  const { climate, skin } = settings;
  const skinShare = skin?.outdoorShare ?? 0;
  const byWeather = climate.kind === 'outdoors';
  if (weather === null && (byWeather || skinShare > 0)) {
    throw new DomainError(
      'input.field',
      'The space follows the outdoors, of which nothing is known',
      {
        cure: 'Import hourly outdoor temperatures for the yard, or heat the space.',
      },
    );
  }
  const outdoors = weather === null ? null : outdoorsOf(weather);
  const regimes = regimesOf(climate, settings.changes);
  const lastRead = readings.reduce(
    (last, { at, minutes }) => Math.max(last, at + minutes),
    -Infinity,
  );
  const lag = regimes.findLast(({ from }) => from <= lastRead)?.tau ?? 0;
  const airMemory = Math.max(SHORTEST_MEMORY, lag);
  const skinLag = (skin?.lagHours ?? 0) * 60;
  const skinMemory = Math.max(airMemory, skinLag);

  const { step } = span;
  const early = Math.ceil(Math.max(SETTLED * skinLag, FORGOTTEN * skinMemory) / step);
  const points = Math.max(2, Math.ceil((span.horizon - span.first) / step) + 1);
  const grid: Grid = { first: span.first - early * step, step, n: early + points };
  const end = grid.first + (grid.n - 1) * step;

  const slowest = Math.max(...regimes.map(({ tau }) => tau));
  const settled = grid.first - Math.ceil((SETTLED * slowest) / step) * step;
  const drive = driveOf(settings, outdoors, wall, settled, end, step);

  const assumed = outdoors?.assumed(grid.first, end + 1) ?? [];
  const band = settings.bandC ?? USUAL_BAND_C[climate.kind];
  const weatherBand = settings.bandC ?? USUAL_BAND_C.outdoors;
  const weatherWidth = new Float64Array(grid.n).fill(weatherBand);
  for (const { start, end: until } of assumed) {
    for (let k = Math.ceil((start - grid.first) / step); k < grid.n; k++) {
      if (grid.first + k * step >= until) break;
      weatherWidth[k] = weatherBand * ASSUMED_WIDER;
    }
  }
  const airWidth = byWeather ? weatherWidth : new Float64Array(grid.n).fill(band);
  const reckoned = { ...track(drive, regimes, grid), below: airWidth, above: airWidth };
  const readAir = observedOf(readings, 'air');
  const read = correct(reckoned, readAir, grid, airMemory);
  const warm = keptWarm(read, reckoned, readAir, regimes, grid);
  const air = keptFrom(warm, regimes, settings.bandC ?? USUAL_BAND_C.heated, grid);
  const surface = correct(
    skin === null ? air : skinOf(air, skin, outdoors, weatherWidth, grid),
    observedOf(readings, 'surface'),
    grid,
    skinMemory,
  );
  const vapour = outdoors?.vapourHPa ?? null;
  const moisture = moistureOf(settings, vapour, air.expected, readings, grid, airMemory);

  const series = (celsius: Float64Array): TemperatureSeries => ({
    shape: 'lines',
    start: span.first,
    step,
    celsius: celsius.subarray(early),
  });
  const bandOf = ({ low, expected, high, below, above }: Reckoned): TemperatureBand => ({
    cold: series(low.map((celsius, k) => celsius - below[k])),
    expected: series(expected),
    warm: series(high.map((celsius, k) => celsius + above[k])),
  });
  const airBand = bandOf(air);
  const usesWeather =
    byWeather || skinShare > 0 || (moisture !== null && settings.humidity?.kind === 'outdoors');
  const unknown = usesWeather ? (outdoors?.assumed(span.first, end) ?? []) : [];
  return {
    air: airBand,
    surface: surface === air ? airBand : bandOf(surface),
    humidity: moisture?.humidity.subarray(early) ?? null,
    dewPointC: moisture?.dewPointC.subarray(early) ?? null,
    assumed: unknown satisfies readonly Span[],
  };
}
