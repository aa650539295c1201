import { readDown, readUp } from './lag-table.ts';
import type { Lag, LagFunction, LagFunctions, Problem } from './problem.ts';

/** The function for an activity done in `mode`. */
export const functionFor = (fns: LagFunctions, mode: number): LagFunction =>
  fns.length === 1 ? fns[0] : fns[mode];

/** The earliest (`open`) moment that the function allows for anchor time `t`, a whole minute. */
export const opensAt = (problem: Problem, fn: LagFunction, t: number): number =>
  fn.kind === 'constant' ? t + fn.minutes : readUp(problem.tables[fn.table], t);

/** The latest (`close`) moment that the function allows for anchor time `t`, a whole minute. */
export const closesAt = (problem: Problem, fn: LagFunction, t: number): number =>
  fn.kind === 'constant' ? t + fn.minutes : readDown(problem.tables[fn.table], t);

/** A lag's bound on its `to` anchor when the `from` anchor, of work done in `mode`, is at `t`. */
export function lagAt(problem: Problem, lag: Lag, mode: number, t: number): number {
  const fn = functionFor(lag.fns, mode);
  return lag.bound === 'open' ? opensAt(problem, fn, t) : closesAt(problem, fn, t);
}
