import type { Lag, LagFunction, LagFunctions, Problem } from './problem.ts';

/** The function for an activity done in `mode`. */
export const functionFor = (fns: LagFunctions, mode: number): LagFunction =>
  fns.length === 1 ? fns[0] : fns[mode];

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

/** A lag's bound on its `to` anchor when the `from` anchor, of work done in `mode`, is at `t`. */
export function lagAt(problem: Problem, lag: Lag, mode: number, t: number): number {
  const fn = functionFor(lag.fns, mode);
  return lag.bound === 'open' ? opensAt(problem, fn, t) : closesAt(problem, fn, t);
}
