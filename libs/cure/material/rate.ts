import type { CureTable, Side } from './material.ts';

const KELVIN = 273.15;

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

/** Cure per minute at a temperature: a film has passed a milestone when it has gathered 1. */
export type Rate = (celsius: number) => number;

/**
 * The rate at which a film nears a milestone: 1 / minutes, with the logarithm of the minutes
 * linear in 1/T (kelvin) between the rows, which is exact for any Arrhenius rate.
 *
 * Outside the rows each side keeps to what cannot hurt it. An opening must not be earlier
 * than the truth: above the hottest row it keeps that row's time, below the coldest it
 * follows the line of the two coldest rows. A closing must not be later: above the hottest
 * row it follows the line of the two hottest, below the coldest it keeps that row's time.
 * Below `minimumC` the sheet says that the cure stops, and both sides take its word.
 */
export function rateOf(table: CureTable, side: Side, minimumC: number): Rate {
  const celsius = table.rows.map((row) => row.celsius);
  const inverse = celsius.map((c) => 1 / (c + KELVIN));
  const logMinutes = table.rows.map((row) => Math.log(row.minutes));
  const last = celsius.length - 1;
  const along = (k: number, c: number): number => {
    const slope = (logMinutes[k + 1] - logMinutes[k]) / (inverse[k + 1] - inverse[k]);
    return Math.min(FASTEST, Math.exp(-(logMinutes[k] + slope * (1 / (c + KELVIN) - inverse[k]))));
  };
  const within = (c: number): number => {
    if (c <= celsius[0]) {
      return side === 'close' || c === celsius[0] ? 1 / table.rows[0].minutes : along(0, c);
    }
    if (c >= celsius[last]) {
      return side === 'open' || c === celsius[last]
        ? 1 / table.rows[last].minutes
        : along(last - 1, c);
    }
    let k = 0;
    while (celsius[k + 1] < c) k++;
    return along(k, c);
  };
  const slowest = side === 'open' ? 0 : SLOWEST;
  return (c) => {
    if (c < minimumC) return 0;
    const rate = within(c);
    return rate < SLOWEST ? slowest : rate;
  };
}
