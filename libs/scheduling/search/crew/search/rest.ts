import type { Compiled } from '../compiled/compiled.ts';
import type { LagFunction, Problem } from '../../../model/problem.ts';

/** The least that an opening can lie after its anchor, 0 or more. */
function leastWait(problem: Problem, fn: LagFunction): number {
  if (fn.kind === 'constant') return Math.max(0, fn.minutes);
  const table = problem.tables[fn.table];
  const moment = (k: number): number => ('grid' in table ? k * table.grid : table.at[k]);
  return Math.max(
    0,
    table.values.reduce((least, value, k) => Math.min(least, value - moment(k)), Infinity),
  );
}

/**
 * By activity, minutes that must at least pass between its finish and that of its refit, as far as
 * lags to work that is always done say.
 */
export function restOf({ problem, activities, order }: Compiled): Float64Array {
  const rest = new Float64Array(activities.length);
  for (let i = order.topological.length - 1; i >= 0; i -= 1) {
    const a = order.topological[i];
    for (const { open, fns, fromFinish, toFinish, to, choice } of activities[a].outgoing) {
      const next = activities[to];
      if (!open || !fromFinish || choice >= 0 || next.choice >= 0) continue;
      if (next.refit !== activities[a].refit || next.frozen !== null) continue;
      const wait = fns.reduce((least, fn) => Math.min(least, leastWait(problem, fn)), Infinity);
      const minutes = toFinish
        ? 0
        : next.modes.reduce((least, mode) => Math.min(least, mode.least), Infinity);
      rest[a] = Math.max(rest[a], wait + minutes + rest[to]);
    }
  }
  return rest;
}
