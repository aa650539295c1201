import type { ActivationLaw, CureRow, DoublingLaw, Side, TableLaw } from './material.ts';

/**
 * How a clock reckons where something is not known: on the safe side of an opening or of a
 * closing, or as it is `expected` (shown beside them, never planned with).
 */
export type Reckoning = Side | 'expected';

/** A law that gives a time for every temperature; conversion laws have none. */
export type TimeLaw = TableLaw | ActivationLaw | DoublingLaw;

/** Cure per minute at a temperature: a film has passed a milestone when it has gathered 1. */
export type Rate = (celsius: number) => number;

export interface RateSettings {
  /** Up to where a fallback holds; a table says so by its rows. */
  readonly maximumC?: number;
  /** Multiplies all times. */
  readonly scale?: number;
}

const KELVIN = 273.15;
/** J / (mol K), CODATA 2018 (from memory). */
const GAS = 8.314462618;

/**
 * No milestone takes less than a second. A steep line followed far above the rows could give
 * any rate, and one hour of it would drown the ages of all other hours in rounding.
 */
const FASTEST = 60;

/**
 * What takes longer than a century does not happen in a yard. A steep line followed far below
 * the rows could give any slowness, and starts so long ago that a minute no longer counts in
 * them: an opening then stalls, a closing comes after a century, each on its safe side.
 */
const SLOWEST = 1 / (100 * 365.25 * 24 * 60);

/** Logarithm of the minutes at a temperature. */
type LogTime = (celsius: number) => number;

/**
 * Through rows of logarithms of minutes, straight in 1/T (kelvin), each row's line up to the next
 * and the last one's beyond. Before the first row it is the first one's. At a row it is the row,
 * not what rounding makes of the line through it.
 */
function linesThrough(
  celsius: readonly number[],
  logs: readonly number[],
  slopes: readonly number[],
  coldest: number,
  hottest: number,
): LogTime {
  const last = celsius.length - 1;
  const inverse = celsius.map((c) => 1 / (c + KELVIN));
  return (c) => {
    const held = Math.min(hottest, Math.max(coldest, c));
    let k = 0;
    while (k < last && celsius[k + 1] <= held) k++;
    return logs[k] + slopes[k] * (1 / (held + KELVIN) - inverse[k]);
  };
}

function tableTime(rows: readonly CureRow[], side: Reckoning): LogTime {
  const celsius = rows.map((row) => row.celsius);
  const logs = rows.map((row) => Math.log(row.minutes));
  const inverse = celsius.map((c) => 1 / (c + KELVIN));
  const slopes = logs.slice(1).map((log, k) => (log - logs[k]) / (inverse[k + 1] - inverse[k]));
  const coldest = side === 'close' ? celsius[0] : -Infinity;
  const hottest = side === 'open' ? celsius[celsius.length - 1] : Infinity;
  return linesThrough(celsius, logs, [...slopes, slopes[slopes.length - 1]], coldest, hottest);
}

function fallbackTime(
  law: ActivationLaw | DoublingLaw,
  side: Reckoning,
  maximumC: number,
): LogTime {
  const { celsius, minutes } = law.at;
  const log = Math.log(minutes);
  const hottest = side === 'open' ? maximumC : Infinity;
  if (law.kind === 'activation')
    return linesThrough([celsius], [log], [(1000 * law.kjPerMol) / GAS], -Infinity, hottest);
  const perDegree = Math.log(law.per10C) / 10;
  return (c) => log - perDegree * (Math.min(hottest, c) - celsius);
}

/**
 * The rate at which a film nears a milestone: 1 / minutes. Of a table the logarithm of the
 * minutes is linear in 1/T (kelvin) between the rows, which is exact for any Arrhenius rate.
 *
 * Outside the rows each side keeps to what cannot hurt it. An opening must not be earlier
 * than the truth: above the hottest row it keeps that row's time, below the coldest it
 * follows the line of the two coldest rows. A closing must not be later: above the hottest
 * row it follows the line of the two hottest, below the coldest it keeps that row's time.
 * A fallback holds from `minimumC` to `maximumC`; above it an opening keeps the time there.
 * Below `minimumC` the sheet says that the cure stops: only a closing does not take its word.
 */
export function rateOf(
  law: TimeLaw,
  side: Reckoning,
  minimumC: number,
  { maximumC = Infinity, scale = 1 }: RateSettings = {},
): Rate {
  const logTime =
    law.kind === 'table' ? tableTime(law.rows, side) : fallbackTime(law, side, maximumC);
  const logScale = Math.log(scale);
  return withinReason((c) => Math.exp(-logTime(c) - logScale), side, minimumC);
}

/**
 * A rate that keeps between a second and a century. Below the minimum it stands still, but for a
 * closing, which goes on as at the minimum: more sheets give the lowest temperature to apply at
 * than the one at which nothing happens, and a window that seemed open all through a cold night
 * would be the dear mistake.
 */
export function withinReason(rate: Rate, side: Reckoning, minimumC: number): Rate {
  const slowest = side === 'open' ? 0 : SLOWEST;
  return (c) => {
    if (c < minimumC && side !== 'close') return 0;
    const found = rate(Math.max(c, minimumC));
    return found < SLOWEST ? slowest : Math.min(FASTEST, found);
  };
}

/** Temperatures at which the rate jumps or bends, ascending: between them it is smooth. */
export function kinksOf(
  law: TimeLaw,
  minimumC: number,
  { maximumC = Infinity }: RateSettings = {},
): number[] {
  const own = law.kind === 'table' ? law.rows.map((row) => row.celsius) : [maximumC];
  return [...own.filter((c) => c > minimumC && c < Infinity), minimumC].sort((a, b) => a - b);
}
