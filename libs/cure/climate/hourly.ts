import { celsiusAt, type TemperatureBand } from '../clock/series.ts';
import type { AirSeries, SpaceClimate } from './space-climate.ts';

/** One temperature as far as it is known, degrees Celsius. */
interface Known {
  readonly cold: number;
  readonly expected: number;
  readonly warm: number;
}

/** A space at one moment, minutes from the origin; null where nothing is known of its humidity. */
export interface Hour {
  readonly minute: number;
  readonly air: Known;
  readonly surface: Known;
  readonly humidity: number | null;
  readonly dewPointC: number | null;
  /** Degrees that the surface is expected above the dew point; negative: it sweats. */
  readonly marginC: number | null;
  /** The same for a surface as cold as it may be. */
  readonly leastMarginC: number | null;
  /** The weather that it depends on is assumed. */
  readonly assumed: boolean;
}

const HOUR = 60;

const at = (band: TemperatureBand, minute: number): Known => ({
  cold: celsiusAt(band.cold, minute),
  expected: celsiusAt(band.expected, minute),
  warm: celsiusAt(band.warm, minute),
});

/** The space at every hour from `from` on, up to and including `to`. */
export function hourly(climate: SpaceClimate, from: number, to: number): Hour[] {
  const read = (series: AirSeries | null, minute: number): number | null =>
    series === null
      ? null
      : celsiusAt({ ...climate.air.expected, shape: 'lines', celsius: series }, minute);
  const hours: Hour[] = [];
  for (let minute = from; minute <= to; minute += HOUR) {
    const surface = at(climate.surface, minute);
    const dewPointC = read(climate.dewPointC, minute);
    hours.push({
      minute,
      air: at(climate.air, minute),
      surface,
      humidity: read(climate.humidity, minute),
      dewPointC,
      marginC: dewPointC === null ? null : surface.expected - dewPointC,
      leastMarginC: dewPointC === null ? null : surface.cold - dewPointC,
      assumed: climate.assumed.some(({ start, end }) => start <= minute && minute < end),
    });
  }
  return hours;
}
