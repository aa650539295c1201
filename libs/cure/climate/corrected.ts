import type { Grid } from './track.ts';

/** What was read of one quantity: at a minute, or the mean over `minutes` from it on. */
export interface Observed {
  readonly at: number;
  readonly minutes: number;
  readonly value: number;
}

/** What readings make of a reckoned series, at each point of its grid. */
export interface Correction {
  /** To be added. */
  readonly shift: Float64Array;
  /** How much of the uncertainty is left: 0 where it was read, towards 1 away from there. */
  readonly doubt: Float64Array;
}

/** Readings that begin within so many steps of the first of them count as one. */
const GROUP_STEPS = 3;

/** Time constants after which a correction is less than rounding. */
const GONE = 37;

interface Group {
  readonly centre: number;
  /** From the beginning of its first reading to the end of its last. */
  readonly minutes: number;
  readonly value: number;
  /** Weights of the grid's points in what was read. */
  readonly weights: readonly (readonly [point: number, weight: number])[];
}

/** The mean of lines over a stretch, or their value at a moment, as weights of the points. */
function weightsOf(from: number, to: number, { first, step, n }: Grid): [number, number][] {
  const weights = new Map<number, number>();
  const add = (point: number, weight: number): void => {
    if (weight !== 0) weights.set(point, (weights.get(point) ?? 0) + weight);
  };
  const [a, b] = [(from - first) / step, (to - first) / step];
  if (a === b) {
    const k = Math.min(n - 2, Math.floor(a));
    add(k, 1 - (a - k));
    add(k + 1, a - k);
    return [...weights];
  }
  for (let k = Math.floor(a); k < b; k++) {
    const [p, q] = [Math.max(0, a - k), Math.min(1, b - k)];
    const right = (q * q - p * p) / 2;
    add(k, (q - p - right) / (b - a));
    add(k + 1, right / (b - a));
  }
  return [...weights];
}

/**
 * Sorted readings inside the grid, those closer than `GROUP_STEPS` merged into their mean, each
 * for as long as it stands: lines cannot follow faster ones without swinging, and no
 * thermometer in a shed deserves it.
 */
function groupsOf(readings: readonly Observed[], grid: Grid): Group[] {
  const last = grid.first + (grid.n - 1) * grid.step;
  const inside = readings
    .filter(({ at, minutes }) => at >= grid.first && at + minutes <= last)
    .sort((a, b) => a.at - b.at);
  const lists: Observed[][] = [];
  for (const reading of inside) {
    const open = lists.at(-1);
    if (open !== undefined && reading.at < open[0].at + GROUP_STEPS * grid.step) open.push(reading);
    else lists.push([reading]);
  }
  return lists.map((list) => {
    // A moment among means stands for a step of the grid.
    const lasts = ({ minutes }: Observed): number => Math.max(minutes, grid.step);
    const all = list.reduce((sum, reading) => sum + lasts(reading), 0);
    const mean = (of: (reading: Observed) => number): number =>
      list.reduce((sum, reading) => sum + (lasts(reading) / all) * of(reading), 0);
    const weights = new Map<number, number>();
    for (const reading of list) {
      for (const [point, weight] of weightsOf(reading.at, reading.at + reading.minutes, grid))
        weights.set(point, (weights.get(point) ?? 0) + (weight * lasts(reading)) / all);
    }
    const end = Math.max(...list.map(({ at, minutes }) => at + minutes));
    return {
      centre: mean(({ at, minutes }) => at + minutes / 2),
      minutes: end - list[0].at,
      value: mean(({ value }) => value),
      weights: [...weights],
    };
  });
}

const read = (group: Group, series: Float64Array): number =>
  group.weights.reduce((sum, [point, weight]) => sum + weight * series[point], 0);

/**
 * The least change at the points read that makes `series` give exactly `wanted`: of
 * neighbouring groups at most one point is shared, so the equations are tridiagonal.
 */
function settle(groups: readonly Group[], series: Float64Array, wanted: readonly number[]): void {
  const n = groups.length;
  const dot = (a: Group, b: Group): number => {
    const other = new Map(b.weights);
    return a.weights.reduce((sum, [point, weight]) => sum + weight * (other.get(point) ?? 0), 0);
  };
  const diagonal = groups.map((group) => dot(group, group));
  const beside = groups.map((group, j) => (j + 1 < n ? dot(group, groups[j + 1]) : 0));
  const rest = groups.map((group, j) => wanted[j] - read(group, series));
  for (let j = 1; j < n; j++) {
    const factor = beside[j - 1] / diagonal[j - 1];
    diagonal[j] -= factor * beside[j - 1];
    rest[j] -= factor * rest[j - 1];
  }
  for (let j = n - 1; j >= 0; j--) {
    if (j + 1 < n) rest[j] -= beside[j] * rest[j + 1];
    rest[j] /= diagonal[j];
  }
  groups.forEach(({ weights }, j) => {
    for (const [point, weight] of weights) series[point] += rest[j] * weight;
  });
}

/**
 * How well the mean over so many minutes tells the middle of them, 1 for a moment: their
 * correlation in a stationary Gauss-Markov process with the time constant `tau` (calculated:
 * covariance and variance of the mean are integrals of e^(-|t| / tau)).
 */
function tells(minutes: number, tau: number): number {
  const x = minutes / tau;
  // The series of both begins with 1; below that x the difference is lost in rounding.
  if (x < 1e-3) return 1;
  const covariance = (2 / x) * -Math.expm1(-x / 2);
  const variance = (2 / (x * x)) * (x + Math.expm1(-x));
  return covariance / Math.sqrt(variance);
}

/**
 * Corrects a reckoned series so that it gives what was read. What it was off by is taken for a
 * stationary Gauss-Markov process with the time constant `tau` minutes, of which the readings
 * are known points: it decays from the last reading on (and before the first one), bends
 * between two, and its conditional standard deviation is the doubt left. (Ornstein-Uhlenbeck
 * bridge; from memory, any text on Gaussian processes.) A mean over a long time leaves doubt of
 * every moment of it. With `tau` the lag of a body, the forecast is that of the body started
 * anew from what was read.
 */
export function correctionOf(
  series: Float64Array,
  readings: readonly Observed[],
  grid: Grid,
  tau: number,
): Correction {
  const { first, step, n } = grid;
  const shift = new Float64Array(n);
  const doubt = new Float64Array(n).fill(1);
  const groups = groupsOf(readings, grid);
  if (groups.length === 0) return { shift, doubt };
  const off = groups.map((group) => group.value - read(group, series));
  const told = groups.map(({ minutes }) => tells(minutes, tau) ** 2);
  let next = 0;
  for (let k = 0; k < n; k++) {
    const minute = first + k * step;
    while (next < groups.length && groups[next].centre < minute) next++;
    const since = next > 0 ? (minute - groups[next - 1].centre) / tau : Infinity;
    const until = next < groups.length ? (groups[next].centre - minute) / tau : Infinity;
    if (since > GONE && until > GONE) continue;
    const [a, b] = [Math.exp(-since), Math.exp(-until)];
    const both = 1 - a * a * b * b;
    // Both are 1 only where two readings would share a moment, which groups cannot.
    const before = next > 0 ? off[next - 1] * a * (1 - b * b) : 0;
    const after = next < groups.length ? off[next] * b * (1 - a * a) : 0;
    shift[k] = (before + after) / both;
    const [p, q] = [
      next > 0 ? told[next - 1] * a * a : 0,
      next < told.length ? told[next] * b * b : 0,
    ];
    doubt[k] = Math.sqrt(((1 - p) * (1 - q)) / (1 - p * q));
  }
  settle(groups, shift, off);
  return { shift, doubt };
}
