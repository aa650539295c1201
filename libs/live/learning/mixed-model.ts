import { inverse, type Square, times, zeros } from './matrix.ts';

/** What one finished task says: a number, and how much of each level of each factor is in it. */
export interface Observation {
  readonly y: number;
  readonly levels: readonly {
    readonly factor: number;
    readonly level: number;
    readonly weight: number;
  }[];
}

/** What is expected of a variance before anything is known: so many observations' worth of it. */
export interface Prior {
  readonly worth: number;
  readonly variance: number;
}

export interface Priors {
  readonly residual: Prior;
  readonly factor: Prior;
}

export interface Effect {
  readonly mean: number;
  /** Standard deviation of what is not known about it. */
  readonly sd: number;
}

export interface MixedFit {
  /** What is expected of the observations on average. */
  readonly mean: Effect;
  /** Variances: of what no factor explains, and between the levels of each factor. */
  readonly residual: number;
  readonly between: readonly number[];
  /** Of a level against the average of its factor, drawn towards 0 the more, the less is known of it. */
  readonly effect: (factor: number, level: number) => Effect;
  /** What is expected at a level, with the average of every other factor. */
  readonly withMean: (factor: number, level: number) => Effect;
  /** What is expected of an observation. */
  readonly fitted: (observation: Observation) => number;
}

const MOST_ROUNDS = 40;
/** Relative change of every variance below which the rounds end. */
const ENOUGH = 0.01;

/**
 * A linear model with one mean and crossed random factors, y = μ + Σ weight·u + e, u ~ N(0, τ²) with
 * a τ² for each factor, e ~ N(0, σ²).
 *
 * For given variances the effects and their spread are the solution and the inverse of Henderson's
 * mixed model equations: best linear unbiased prediction, which is where little evidence is shrunk
 * towards nothing (Henderson, Biometrics 31, 1975, 423-447; Robinson, "That BLUP is a good thing",
 * Statistical Science 6, 1991, 15-32). The variances are found by expectation and maximisation of
 * their restricted likelihood (Searle, Casella and McCulloch, Variance Components, 1992, 8.3), each
 * with a scaled inverse chi-squared prior, which is worth a few observations and keeps a variance
 * that three tasks are to tell from becoming 0 (Gelman et al., Bayesian Data Analysis, 3rd ed.,
 * 2.6 and 5.7; Chung et al., Psychometrika 78, 2013, 685-709).
 *
 * A level is compared with the average of its factor's levels that there is evidence of: what all
 * people have in common cannot be told from what the work has.
 *
 * At least one observation; O(levels³) a round.
 */
export function mixedModel(
  observations: readonly Observation[],
  counts: readonly number[],
  { residual: expected, factor: prior }: Priors,
): MixedFit {
  const offsets = counts.map((_, f) => 1 + counts.slice(0, f).reduce((sum, n) => sum + n, 0));
  const size = 1 + counts.reduce((sum, n) => sum + n, 0);
  const place = (factor: number, level: number): number => offsets[factor] + level;
  const { cross, right, squares } = normalEquations(observations, size, place);
  let residual = expected.variance;
  let between = counts.map(() => prior.variance);
  for (let round = 0; ; round += 1) {
    const { spread, solution } = solved(cross, right, residual, between, counts, place);
    const explained = solution.reduce((sum, value, i) => sum + value * right[i], 0);
    const nextResidual =
      (Math.max(0, squares - explained) + expected.worth * expected.variance) /
      (observations.length - 1 + expected.worth);
    const nextBetween = counts.map((count, f) => {
      let sum = 0;
      for (let level = 0; level < count; level += 1) {
        const i = place(f, level);
        sum += solution[i] ** 2 + spread.cells[i * size + i];
      }
      return (sum + prior.worth * prior.variance) / (count + prior.worth);
    });
    const isSettled = [nextResidual, ...nextBetween].every(
      (next, k) => Math.abs(next - [residual, ...between][k]) <= ENOUGH * next,
    );
    [residual, between] = [nextResidual, nextBetween];
    if (isSettled || round === MOST_ROUNDS) break;
  }
  const { spread, solution } = solved(cross, right, residual, between, counts, place);
  const seen = (factor: number, level: number): number => cross.cells[place(factor, level)];
  const met = counts.map((count, f) =>
    Array.from({ length: count }, (_, k) => k).filter((k) => seen(f, k) > 0),
  );
  const average = (factor: number, level: number): number =>
    seen(factor, level) > 0 ? 1 / met[factor].length : 0;
  /** A sum of the mean and of levels, each so many times. */
  const combined = (mean: number, of: (factor: number, level: number) => number): Effect => {
    const weights = new Float64Array(size);
    weights[0] = mean;
    counts.forEach((count, f) => {
      for (let level = 0; level < count; level += 1) weights[place(f, level)] = of(f, level);
    });
    const spreads = times(spread, weights);
    const dot = (vector: Float64Array): number =>
      vector.reduce((sum, value, i) => sum + value * weights[i], 0);
    return { mean: dot(solution), sd: Math.sqrt(Math.max(0, dot(spreads))) };
  };
  const only = (yes: boolean): number => (yes ? 1 : 0);
  return {
    mean: combined(1, (f, k) => seen(f, k) / observations.length),
    residual,
    between,
    effect: (factor, level) =>
      combined(0, (f, k) => (f === factor ? only(k === level) - average(f, k) : 0)),
    withMean: (factor, level) =>
      combined(1, (f, k) => (f === factor ? only(k === level) : average(f, k))),
    fitted: ({ levels }) =>
      levels.reduce(
        (sum, { factor, level, weight }) => sum + weight * solution[place(factor, level)],
        solution[0],
      ),
  };
}

interface Equations {
  readonly cross: Square;
  readonly right: Float64Array;
  /** The sum of y². */
  readonly squares: number;
}

/** What the data say, whatever the variances: products of the columns of μ and of all levels. */
function normalEquations(
  observations: readonly Observation[],
  size: number,
  place: (factor: number, level: number) => number,
): Equations {
  const cross = zeros(size);
  const right = new Float64Array(size);
  let squares = 0;
  for (const { y, levels } of observations) {
    const columns: (readonly [number, number])[] = [[0, 1]];
    for (const { factor, level, weight } of levels) columns.push([place(factor, level), weight]);
    for (const [i, left] of columns) {
      right[i] += left * y;
      for (const [j, weight] of columns) cross.cells[i * size + j] += left * weight;
    }
    squares += y * y;
  }
  return { cross, right, squares };
}

/** Henderson's equations on the scale of variances: their inverse is what is not known. */
function solved(
  { size, cells }: Square,
  right: Float64Array,
  residual: number,
  between: readonly number[],
  counts: readonly number[],
  place: (factor: number, level: number) => number,
): { spread: Square; solution: Float64Array } {
  const equations = { size, cells: cells.map((value) => value / residual) };
  counts.forEach((count, factor) => {
    for (let level = 0; level < count; level += 1) {
      const i = place(factor, level);
      equations.cells[i * size + i] += 1 / between[factor];
    }
  });
  const spread = inverse(equations);
  return {
    spread,
    solution: times(
      spread,
      right.map((value) => value / residual),
    ),
  };
}
