import { wallClock } from '#calendar/local-time.ts';
import { climateSeries, type Climate, type ClimateSeries } from '#cure/climate/climate.ts';
import type { TemperatureSeries } from '#cure/clock/series.ts';
import type { Workload } from '../workload/workload.ts';
import type { Space } from '../yard/spaces.ts';
import type { Yard } from '../yard/yard.ts';
import type { Frame } from './time.ts';

const STEP = 10;

const climateOf = ({ climate }: Space): Climate =>
  climate.kind === 'heated'
    ? { kind: 'heated', setPoints: climate.setPoints }
    : { kind: 'outdoors', lagHours: climate.lagHours, offsetC: climate.warmerBy };

/** Minute of the earliest film that still counts, at most 0, on the grid of the temperatures. */
export function firstMinute(workload: Workload, frame: Frame): number {
  const starts = workload.tasks.map((task) =>
    task.startedAt === null ? 0 : frame.minuteOf(task.startedAt),
  );
  return Math.floor(Math.min(0, ...starts) / STEP) * STEP;
}

function seriesFrom(
  climate: Climate,
  readings: Parameters<typeof climateSeries>[1],
  wall: ReturnType<typeof wallClock>,
  begin: string,
  first: number,
  frame: Frame,
): ClimateSeries {
  const series = climateSeries(climate, readings, wall, begin, frame.horizon - first, STEP);
  const assumed = series.assumed.map(({ start, end }) => ({
    start: start + first,
    end: end + first,
  }));
  return { ...series, start: first, assumed };
}

/**
 * The temperature of each space, from the earliest film that counts to the horizon, minutes from
 * the origin. Spaces of one climate have one and the same series.
 */
export function temperatures(
  yard: Yard,
  frame: Frame,
  first: number,
): ReadonlyMap<string, ClimateSeries> {
  const { outdoor } = yard;
  const from = outdoor === null ? 0 : Date.parse(outdoor.from);
  const readings = (outdoor?.celsius ?? []).map((celsius, hour) => ({
    at: new Date(from + hour * 3_600_000).toISOString(),
    celsius,
  }));
  const begin = frame.isoAt(first);
  const wall = wallClock(yard.timeZone, begin);
  const known = new Map<string, ClimateSeries>();
  return new Map(
    yard.spaces.map((space) => {
      const climate = climateOf(space);
      const key = JSON.stringify(climate);
      const same = known.get(key) ?? seriesFrom(climate, readings, wall, begin, first, frame);
      known.set(key, same);
      return [space.id, same];
    }),
  );
}

/** The coldest and warmest of a series from minute 0 on. */
export function range({ start, step, celsius }: TemperatureSeries): { low: number; high: number } {
  let [low, high] = [Infinity, -Infinity];
  for (let k = Math.max(0, Math.floor(-start / step)); k < celsius.length; k++) {
    low = Math.min(low, celsius[k]);
    high = Math.max(high, celsius[k]);
  }
  return { low, high };
}
