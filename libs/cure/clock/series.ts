import { DomainError } from '#kernel/error.ts';

/**
 * Temperature over time in equal steps: `celsius[k]` holds for the minutes
 * [start + k * step, start + (k + 1) * step). The first value holds before the start and
 * the last one beyond the end, so a series should reach as far as anything depends on it.
 */
export interface TemperatureSeries {
  readonly start: number;
  readonly step: number;
  readonly celsius: ArrayLike<number>;
}

/** A half-open stretch of minutes. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** One temperature for ever. */
export const constantSeries = (celsius: number): TemperatureSeries => ({
  start: 0,
  step: 1,
  celsius: [celsius],
});

/** The temperature in force at a minute. */
export function celsiusAt(series: TemperatureSeries, minute: number): number {
  const k = Math.floor((minute - series.start) / series.step);
  return series.celsius[Math.max(0, Math.min(series.celsius.length - 1, k))];
}

function combine(
  list: readonly TemperatureSeries[],
  pick: (a: number, b: number) => number,
): TemperatureSeries {
  const [first, ...others] = list;
  const celsius = Float64Array.from(first.celsius);
  for (const other of others) {
    const same = other.start === first.start && other.step === first.step;
    if (!same || other.celsius.length !== celsius.length) {
      throw new DomainError('input.field', 'Temperatures on different grids cannot be compared');
    }
    for (let k = 0; k < celsius.length; k++) celsius[k] = pick(celsius[k], other.celsius[k]);
  }
  return { start: first.start, step: first.step, celsius };
}

/**
 * The colder at each moment of the climates that a part may see (all on one grid, one or
 * more): what an opening must allow for when the part may move before it. Two finished
 * tables do not give it, since the part may be in the colder place at every moment.
 */
export const coldest = (list: readonly TemperatureSeries[]): TemperatureSeries =>
  combine(list, Math.min);

/** The warmer at each moment: what a closing must allow for when the part may move. */
export const warmest = (list: readonly TemperatureSeries[]): TemperatureSeries =>
  combine(list, Math.max);
