import { celsiusAt, type TemperatureSeries } from '#cure/clock/series.ts';

/** The minutes of a span at which a series may turn: its ends, and the points of the grid between. */
export function turns({ start, step }: TemperatureSeries, from: number, to: number): number[] {
  const found = [from];
  for (let k = Math.floor((from - start) / step) + 1; start + k * step < to; k++)
    found.push(start + k * step);
  if (to > from) found.push(to);
  return found;
}

/** The coldest and warmest of a series from one minute to another. */
export function extremes(
  series: TemperatureSeries,
  from: number,
  to: number,
): { readonly low: number; readonly high: number } {
  let [low, high] = [Infinity, -Infinity];
  for (const minute of turns(series, from, to)) {
    const celsius = celsiusAt(series, minute);
    low = Math.min(low, celsius);
    high = Math.max(high, celsius);
  }
  return { low, high };
}
