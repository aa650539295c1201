import { wallClock } from '#calendar/local-time.ts';
import { spaceClimate } from '#cure/climate/make.ts';
import type {
  ClimateSettings,
  ClimateSpan,
  SpaceReading,
  Weather,
} from '#cure/climate/settings.ts';
import type { SpaceClimate } from '#cure/climate/space-climate.ts';
import type { TemperatureBand } from '#cure/clock/series.ts';
import type { Workload } from '../../workload/workload.ts';
import type { Space } from '../../yard/spaces.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Frame } from '../frame/time.ts';

/** Minutes between the moments of a temperature. */
const STEP = 10;

const onGrid = (minute: number): number => Math.floor(minute / STEP) * STEP;

/** Minute of the earliest film that still counts, or of `since`, at most 0, on the grid of the temperatures. */
export function firstMinute({ tasks }: Pick<Workload, 'tasks'>, frame: Frame, since = 0): number {
  const starts = tasks.map(({ startedAt }) => (startedAt === null ? 0 : frame.minuteOf(startedAt)));
  return onGrid(starts.reduce((least, start) => Math.min(least, start), Math.min(0, since)));
}

function settingsOf(
  { climate, bandC, humidity, skin, changes }: Space,
  frame: Frame,
): ClimateSettings {
  return {
    climate,
    bandC,
    humidity,
    skin,
    changes: changes.map((change) => ({
      ...change,
      from: frame.minuteOf(change.from),
      to: frame.minuteOf(change.to),
    })),
  };
}

const weatherOf = ({ outdoor }: Yard, frame: Frame): Weather | null =>
  outdoor === null ? null : { ...outdoor, start: frame.minuteOf(outdoor.from) };

function readingsIn(yard: Yard, frame: Frame): ReadonlyMap<string, SpaceReading[]> {
  const found = new Map<string, SpaceReading[]>();
  for (const reading of yard.readings) {
    const made = { ...reading, at: frame.minuteOf(reading.at) };
    found.set(reading.space, [...(found.get(reading.space) ?? []), made]);
  }
  return found;
}

/** The climate of a space from one minute to another. */
type ClimateOver = (space: Space, first: number, until: number) => SpaceClimate;

/** Climates of the yard's spaces; those that are alike and have no readings of their own are one object. */
export function climateOver(yard: Yard, frame: Frame): ClimateOver {
  const weather = weatherOf(yard, frame);
  const readings = readingsIn(yard, frame);
  const wall = wallClock(yard.timeZone, frame.origin);
  const known = new Map<string, SpaceClimate>();
  return (space, first, until) => {
    const settings = settingsOf(space, frame);
    const own = readings.get(space.id) ?? [];
    const apart = own.length === 0 ? '' : space.id;
    const span: ClimateSpan = { first: onGrid(first), horizon: until, step: STEP };
    const key = JSON.stringify([settings, apart, span]);
    const same = known.get(key) ?? spaceClimate(settings, weather, own, wall, span);
    known.set(key, same);
    return same;
  };
}

/** As cold and as warm as something may ever be. */
export interface Extremes {
  readonly low: number;
  readonly high: number;
}

/** The extremes of a band from a minute on. */
export function range({ cold, warm }: TemperatureBand, since = -Infinity): Extremes {
  let [low, high] = [Infinity, -Infinity];
  const from = Math.max(0, Math.floor((since - cold.start) / cold.step));
  for (let k = from; k < cold.celsius.length; k++) {
    if (cold.celsius[k] < low) low = cold.celsius[k];
    if (warm.celsius[k] > high) high = warm.celsius[k];
  }
  return { low, high };
}
