import { DomainError } from '#kernel/error.ts';

/**
 * Temperature over time on an equal grid. `steps`: `celsius[k]` holds for the minutes
 * [start + k * step, start + (k + 1) * step). `lines`: `celsius[k]` is that of the moment
 * start + k * step, straight between such moments. The first value holds before the start and
 * the last one beyond the end, so a series should reach as far as anything depends on it.
 */
export interface TemperatureSeries {
  readonly shape: 'steps' | 'lines';
  readonly start: number;
  readonly step: number;
  readonly celsius: ArrayLike<number>;
}

/** One temperature as far as it is known, on one grid: at every moment cold <= expected <= warm. */
export interface TemperatureBand {
  readonly cold: TemperatureSeries;
  readonly expected: TemperatureSeries;
  readonly warm: TemperatureSeries;
}

/** A half-open stretch of minutes. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** One temperature for ever. */
export const constantSeries = (celsius: number): TemperatureSeries => ({
  shape: 'steps',
  start: 0,
  step: 1,
  celsius: [celsius],
});

/** A temperature that is known exactly. */
export const certain = (series: TemperatureSeries): TemperatureBand => ({
  cold: series,
  expected: series,
  warm: series,
});

/** One temperature for ever, known to plus or minus `bandC` degrees. */
export const constantBand = (celsius: number, bandC = 0): TemperatureBand => ({
  cold: constantSeries(celsius - bandC),
  expected: constantSeries(celsius),
  warm: constantSeries(celsius + bandC),
});

/** The temperature in force at a moment. */
export function celsiusAt(series: TemperatureSeries, minute: number): number {
  const { celsius } = series;
  const last = celsius.length - 1;
  const place = Math.max(0, Math.min(last, (minute - series.start) / series.step));
  const k = Math.floor(place);
  if (series.shape === 'steps' || k === last) return celsius[k];
  return celsius[k] + (place - k) * (celsius[k + 1] - celsius[k]);
}

function combine(
  list: readonly TemperatureSeries[],
  pick: (a: number, b: number) => number,
): TemperatureSeries {
  const [first, ...others] = list;
  if (others.every((other) => other === first)) return first;
  const { shape, start, step } = first;
  const celsius = Float64Array.from(first.celsius);
  for (const other of others) {
    const same = other.start === start && other.step === step && other.shape === shape;
    if (!same || other.celsius.length !== celsius.length) {
      throw new DomainError('input.field', 'Temperatures on different grids cannot be compared');
    }
    for (let k = 0; k < celsius.length; k++) celsius[k] = pick(celsius[k], other.celsius[k]);
  }
  return { shape, start, step, celsius };
}

/**
 * The colder at each moment of the climates that a part may see (all on one grid, one or
 * more): what an opening must allow for when the part may move before it. Two finished
 * tables do not give it, since the part may be in the colder place at every moment. Where
 * two lines cross between moments of the grid, the line drawn here is below both.
 */
export const coldest = (list: readonly TemperatureSeries[]): TemperatureSeries =>
  combine(list, Math.min);

/** The warmer at each moment: what a closing must allow for when the part may move. */
export const warmest = (list: readonly TemperatureSeries[]): TemperatureSeries =>
  combine(list, Math.max);

/** The band of a part that may at any moment be in any of the places; expected in the first. */
export const bandOf = (list: readonly TemperatureBand[]): TemperatureBand => ({
  cold: coldest(list.map(({ cold }) => cold)),
  expected: list[0].expected,
  warm: warmest(list.map(({ warm }) => warm)),
});
