import type { Lag, LagFunction, Problem } from './problem.ts';

/** The earliest (`open`) moment that the function allows for anchor time `t`, safe side between grid points. */
export function opensAt(problem: Problem, fn: LagFunction, t: number): number {
  if (fn.kind === 'constant') return t + fn.minutes;
  const { grid, values } = problem.tables[fn.table];
  return values[Math.min(values.length - 1, Math.ceil(Math.max(0, t) / grid))];
}

/** The latest (`close`) moment that the function allows for anchor time `t`, safe side between grid points. */
export function closesAt(problem: Problem, fn: LagFunction, t: number): number {
  if (fn.kind === 'constant') return t + fn.minutes;
  const { grid, values } = problem.tables[fn.table];
  return values[Math.min(values.length - 1, Math.floor(Math.max(0, t) / grid))];
}

/** A lag's bound on its `to` anchor when the `from` anchor is at `t`. */
export const lagAt = (problem: Problem, lag: Lag, t: number): number =>
  lag.bound === 'open' ? opensAt(problem, lag.fn, t) : closesAt(problem, lag.fn, t);
