import type { LagFunction, Problem } from './problem.ts';

/** The earliest anchor for which a closing reaches `to`; Infinity if none does. */
export function earliestReaching(problem: Problem, fn: LagFunction, to: number): number {
  if (fn.kind === 'constant') return to - fn.minutes;
  const { grid, values } = problem.tables[fn.table];
  let lo = 0;
  let hi = values.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (values[mid] >= to) hi = mid;
    else lo = mid + 1;
  }
  if (lo === values.length) return Infinity;
  return lo === 0 ? -Infinity : lo * grid;
}

/** The latest anchor for which an opening has opened by `to`; -Infinity if none has. */
export function latestOpened(problem: Problem, fn: LagFunction, to: number): number {
  if (fn.kind === 'constant') return to - fn.minutes;
  const { grid, values } = problem.tables[fn.table];
  let lo = 0;
  let hi = values.length;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (values[mid] <= to) lo = mid + 1;
    else hi = mid;
  }
  if (lo === 0) return -Infinity;
  return lo === values.length ? Infinity : (lo - 1) * grid;
}
