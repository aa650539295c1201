import type { Finding } from './observed.ts';
import { logBelow } from './normal.ts';

/**
 * A spread is read as the middle nine tenths: the truth is beyond value * spread one time in
 * twenty, and below value / spread as often (common practice, no source).
 */
export const SPREAD_Z = 1.6448536269514722;

/**
 * Standard deviation in log time of one finding: a builder's "just now", and the mix of that day,
 * are within a quarter of the film's own mean nine times in ten (common practice, no source).
 */
export const NOISE = Math.log(1.25) / SPREAD_Z;

/** What is known of the logarithm of a factor. */
interface Belief {
  readonly mean: number;
  readonly sd: number;
  readonly median: number;
  /** Beyond them lies one twentieth each. */
  readonly low: number;
  readonly high: number;
}

const CELLS = 500;

/** The grid ends where the density has fallen to exp(-FALL) of its peak. */
const FALL = 36;

/** The place of the peak of a concave function between two bounds. */
function peakOf(height: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  while (high - low > 1e-10 * (1 + Math.abs(low) + Math.abs(high))) {
    const [left, right] = [low + (high - low) / 3, high - (high - low) / 3];
    if (height(left) < height(right)) low = left;
    else high = right;
  }
  return (low + high) / 2;
}

/** Where a concave function has fallen by `FALL` from its peak, to one side. */
function edgeOf(height: (x: number) => number, peak: number, step: number): number {
  const floor = height(peak) - FALL;
  let width = step;
  while (height(peak + width) > floor) width *= 2;
  let near = 0;
  for (let k = 0; k < 30; k++) {
    const middle = (near + width) / 2;
    if (height(peak + middle) > floor) near = middle;
    else width = middle;
  }
  return peak + width;
}

/**
 * Bayes on the logarithm of a factor, on a grid: prior N(0, sd), `just-now` at an age is Gaussian
 * about its logarithm, `already` and `not-yet` say on which side of it (probit). The density is
 * log-concave, so it has one peak, and its sums are the same whatever the order of the findings.
 * Ages above 0 only; `sd` of 0: the sheet is taken to be exact.
 */
export function posterior(sd: number, findings: readonly Finding[]): Belief {
  if (sd === 0) return { mean: 0, sd: 0, median: 0, low: 0, high: 0 };
  const logs = (found: Finding['found']): number[] =>
    findings
      .filter((one) => one.found === found)
      .map(({ age }) => Math.log(age))
      .sort((a, b) => a - b);
  const [now, already, notYet] = [logs('just-now'), logs('already'), logs('not-yet')];
  const precision = 1 / sd ** 2 + now.length / NOISE ** 2;
  const centre = now.reduce((sum, log) => sum + log, 0) / NOISE ** 2 / precision;
  const height = (x: number): number => {
    let sum = (-precision * (x - centre) ** 2) / 2;
    for (const log of already) sum += logBelow((log - x) / NOISE);
    for (const log of notYet) sum += logBelow((x - log) / NOISE);
    return sum;
  };
  const all = [centre, ...already, ...notYet];
  const peak = peakOf(height, Math.min(...all), Math.max(...all) + 1e-9);
  const width = 1 / Math.sqrt(precision);
  return summary(height, edgeOf(height, peak, -width), edgeOf(height, peak, width));
}

function summary(height: (x: number) => number, from: number, to: number): Belief {
  const step = (to - from) / CELLS;
  const at = (k: number): number => from + k * step;
  const heights = Float64Array.from({ length: CELLS + 1 }, (_, k) => height(at(k)));
  const top = heights.reduce((a, b) => Math.max(a, b));
  const weights = heights.map((h) => Math.exp(h - top));
  const below = new Float64Array(CELLS + 1);
  let [first, second] = [0, 0];
  weights.forEach((weight, k) => {
    if (k > 0) below[k] = below[k - 1] + (weights[k - 1] + weight) / 2;
    first += weight * k;
  });
  const sum = weights.reduce((a, b) => a + b);
  const mean = first / sum;
  weights.forEach((weight, k) => (second += weight * (k - mean) ** 2));
  const quantile = (share: number): number => {
    const k = below.findIndex((b) => b >= share * below[CELLS]);
    return at(k - 1 + (share * below[CELLS] - below[k - 1]) / (below[k] - below[k - 1]));
  };
  return {
    mean: at(mean),
    sd: Math.sqrt(second / sum) * step,
    median: quantile(0.5),
    low: quantile(0.05),
    high: quantile(0.95),
  };
}
