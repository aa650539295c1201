import { readDown, readUp } from '../model/lag-table.ts';
import type { LagFunction, LineTable, Problem } from '../model/problem.ts';
import type { Arc } from './arc.ts';

/**
 * How far each knot's value lies after it, and the table at the horizon after that. On a line
 * between two knots the wait rises or falls throughout, and taking a whole anchor off does not
 * change which way a value is rounded: the extremes over all whole anchors lie at knots.
 */
function waits({ at, values }: LineTable, horizon: number, last: number): number[] {
  const found = [last - horizon];
  at.forEach((minute, k) => {
    if (minute <= horizon) found.push(values[k] - minute);
  });
  return found;
}

function leastOf({ tables, horizon }: Problem, fn: LagFunction): number {
  if (fn.kind === 'constant') return fn.minutes;
  const table = tables[fn.table];
  if ('at' in table)
    return waits(table, horizon, readUp(table, horizon)).reduce((a, b) => Math.min(a, b));
  const { grid, values } = table;
  let least = Infinity;
  // From the grid point before it (exclusive) up to minute k * grid the opening is values[k].
  values.forEach((value, k) => {
    least = Math.min(least, value - k * grid);
  });
  // Anchors past the last grid point read the last value.
  const beyond = values[values.length - 1] - Math.max(horizon, (values.length - 1) * grid);
  return Math.min(least, beyond);
}

function mostOf({ tables, horizon }: Problem, fn: LagFunction): number {
  if (fn.kind === 'constant') return fn.minutes;
  const table = tables[fn.table];
  if ('at' in table)
    return waits(table, horizon, readDown(table, horizon)).reduce((a, b) => Math.max(a, b));
  const { grid, values } = table;
  let most = -Infinity;
  values.forEach((value, k) => {
    most = Math.max(most, value - k * grid);
  });
  return most;
}

/** The least that an opening lies after its anchor, whatever the mode; anchors from minute 0 to the horizon. */
export const leastWait = (problem: Problem, { fns }: Arc): number =>
  fns.reduce((least, fn) => Math.min(least, leastOf(problem, fn)), Infinity);

/** The most that a closing lies after its anchor, whatever the mode; anchors from minute 0 to the horizon. */
export const mostWait = (problem: Problem, { fns }: Arc): number =>
  fns.reduce((most, fn) => Math.max(most, mostOf(problem, fn)), -Infinity);
