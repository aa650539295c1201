import { spreadOf } from '../evidence/spread.ts';
import { correctionOf, type Observed } from './corrected.ts';
import { follow } from './heat-store.ts';
import type { Regime } from './regimes.ts';
import type { Skin } from './settings.ts';
import type { Grid } from './track.ts';
import type { Outdoors } from './weather.ts';

/** A band in the making: the truth lies between low - below and high + above. */
export interface Reckoned {
  readonly low: Float64Array;
  readonly expected: Float64Array;
  readonly high: Float64Array;
  readonly below: Float64Array;
  readonly above: Float64Array;
}

/** What a thermometer may be off by either way: nothing is known better than that by reading it. */
const THERMOMETER_C = spreadOf('measured', 'offset');

/** Of a width, what is left where so much of the doubt is; independent errors add by squares. */
function widthLeft(width: number, doubt: number): number {
  const read = Math.min(width, THERMOMETER_C);
  return Math.sqrt(read * read + (width * width - read * read) * doubt * doubt);
}

/** What readings make of it: see `correctionOf`. */
export function correct(
  reckoned: Reckoned,
  readings: readonly Observed[],
  grid: Grid,
  tau: number,
): Reckoned {
  if (readings.length === 0) return reckoned;
  const { shift, doubt } = correctionOf(reckoned.expected, readings, grid, tau);
  const add = (series: Float64Array): Float64Array =>
    series.map((celsius, k) => celsius + shift[k]);
  const left = (widths: Float64Array): Float64Array =>
    widths.map((width, k) => widthLeft(width, doubt[k]));
  const below = left(reckoned.below);
  return {
    low: add(reckoned.low),
    expected: add(reckoned.expected),
    high: add(reckoned.high),
    below,
    above: reckoned.above === reckoned.below ? below : left(reckoned.above),
  };
}

/**
 * A heater set up since the last reading keeps its word whatever was read before it: of what
 * the reading takes away, it gives back what would leave the air colder than it keeps.
 */
export function keptWarm(
  air: Reckoned,
  reckoned: Reckoned,
  readings: readonly Observed[],
  regimes: readonly Regime[],
  { first, step, n }: Grid,
): Reckoned {
  if (readings.length === 0) return air;
  const last = Math.max(...readings.map(({ at, minutes }) => at + minutes));
  const known = regimes.findLast(({ from }) => from <= last)?.atLeastC ?? -Infinity;
  if (regimes.every(({ atLeastC }) => atLeastC <= known)) return air;
  const lift = new Float64Array(n);
  regimes.forEach(({ from, atLeastC }, r) => {
    if (atLeastC <= known) return;
    const begin = Math.max(from, last + 1);
    const end = regimes[r + 1]?.from ?? Infinity;
    for (let k = Math.max(0, Math.ceil((begin - first) / step)); k < n; k++) {
      if (first + k * step >= end) break;
      const taken = reckoned.expected[k] - air.expected[k];
      lift[k] = Math.max(0, Math.min(taken, atLeastC - air.expected[k]));
    }
  });
  const lifted = (series: Float64Array): Float64Array =>
    series.map((celsius, k) => celsius + lift[k]);
  return { ...air, low: lifted(air.low), expected: lifted(air.expected), high: lifted(air.high) };
}

/**
 * Where a heater is on, what is not known of the weather makes nothing colder than it keeps, give
 * or take its own `band`; unless readings have shown that it does not cope.
 */
export function keptFrom(
  air: Reckoned,
  regimes: readonly Regime[],
  band: number,
  { first, step, n }: Grid,
): Reckoned {
  if (regimes.every(({ atLeastC }) => atLeastC === -Infinity)) return air;
  const below = Float64Array.from(air.below);
  regimes.forEach(({ from, atLeastC }, r) => {
    const end = regimes[r + 1]?.from ?? Infinity;
    for (let k = Math.max(0, Math.ceil((from - first) / step)); k < n; k++) {
      if (first + k * step >= end) break;
      const spare = air.low[k] - atLeastC + band;
      if (spare >= 0 && spare < below[k]) below[k] = spare;
    }
  });
  return { ...air, below };
}

/** What has the outdoors on its other side: a mixture of both, followed with a lag. */
export function skinOf(
  air: Reckoned,
  skin: Skin,
  outdoors: Outdoors | null,
  weatherWidth: Float64Array,
  { first, step }: Grid,
): Reckoned {
  const share = skin.outdoorShare;
  const beyond = air.expected.map((_, k) => outdoors?.celsius(first + k * step) ?? 0);
  const mixed = (inside: Float64Array, outside: Float64Array): Float64Array =>
    inside.map((value, k) => (1 - share) * value + share * outside[k]);
  const lag = skin.lagHours * 60;
  const below = follow(mixed(air.below, weatherWidth), lag, step, 'high');
  return {
    low: follow(mixed(air.low, beyond), lag, step, 'low'),
    expected: follow(mixed(air.expected, beyond), lag, step, 'through'),
    high: follow(mixed(air.high, beyond), lag, step, 'high'),
    below,
    above:
      air.above === air.below ? below : follow(mixed(air.above, weatherWidth), lag, step, 'high'),
  };
}
