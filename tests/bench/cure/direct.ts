import { celsiusAt, type TemperatureSeries } from '#cure/clock/series.ts';
import type { Rate } from '#cure/material/rate.ts';

/**
 * The plain way, which shares nothing with the clock but the rate: minute by minute, each in so
 * many parts with the temperature of its middle. The real minute at which a film is there;
 * Infinity if not before `until`.
 */
export function direct(
  rate: Rate,
  series: TemperatureSeries,
  laid: number,
  until: number,
  parts: number,
): number {
  let gathered = 0;
  for (let minute = laid; minute < until; minute++) {
    for (let part = 0; part < parts; part++) {
      const here = rate(celsiusAt(series, minute + (part + 0.5) / parts)) / parts;
      if (gathered + here >= 1 - 1e-9)
        return minute + (part + Math.min(1, (1 - gathered) / here)) / parts;
      gathered += here;
    }
  }
  return Infinity;
}
