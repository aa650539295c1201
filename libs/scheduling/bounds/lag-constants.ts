import type { LagFunction, Problem } from '../model/problem.ts';
import type { Arc } from './arc.ts';

function leastOf({ tables, horizon }: Problem, fn: LagFunction): number {
  if (fn.kind === 'constant') return fn.minutes;
  const { grid, values } = tables[fn.table];
  let least = Infinity;
  // From the grid point before it (exclusive) up to minute k * grid the opening is values[k].
  values.forEach((value, k) => {
    least = Math.min(least, value - k * grid);
  });
  // Anchors past the last grid point read the last value.
  const beyond = values[values.length - 1] - Math.max(horizon, (values.length - 1) * grid);
  return Math.min(least, beyond);
}

function mostOf({ tables }: Problem, fn: LagFunction): number {
  if (fn.kind === 'constant') return fn.minutes;
  const { grid, values } = tables[fn.table];
  let most = -Infinity;
  values.forEach((value, k) => {
    most = Math.max(most, value - k * grid);
  });
  return most;
}

/** The least that an opening lies after its anchor, whatever the mode; anchors from minute 0 on. */
export const leastWait = (problem: Problem, { fns }: Arc): number =>
  fns.reduce((least, fn) => Math.min(least, leastOf(problem, fn)), Infinity);

/** The most that a closing lies after its anchor, whatever the mode; anchors from minute 0 on. */
export const mostWait = (problem: Problem, { fns }: Arc): number =>
  fns.reduce((most, fn) => Math.max(most, mostOf(problem, fn)), -Infinity);
