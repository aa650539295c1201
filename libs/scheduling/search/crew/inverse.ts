import { closesAt, opensAt } from '../../model/lag.ts';
import type { LagFunction, Problem } from '../../model/problem.ts';

interface Bounding {
  readonly open: boolean;
  readonly fn: LagFunction;
}

/** What the lag allows its `to` anchor when the `from` anchor is at `t`. */
export const anchorBound = (problem: Problem, arc: Bounding, t: number): number =>
  arc.open ? opensAt(problem, arc.fn, t) : closesAt(problem, arc.fn, t);

/** The earliest `from` anchor for which a closing lag reaches `to`; Infinity if none does. */
export function anchorReaching(problem: Problem, arc: Bounding, to: number): number {
  if (arc.fn.kind === 'constant') return to - arc.fn.minutes;
  const { grid, values } = problem.tables[arc.fn.table];
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

/** The latest `from` anchor for which an opening lag has opened by `to`; -Infinity if none has. */
export function anchorOpenBy(problem: Problem, arc: Bounding, to: number): number {
  if (arc.fn.kind === 'constant') return to - arc.fn.minutes;
  const { grid, values } = problem.tables[arc.fn.table];
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

/** Until when the surfaces of the activity stay open. */
export function openUntil(
  problem: Problem,
  surfaces: readonly LagFunction[],
  finish: number,
): number {
  let until = finish;
  for (const fn of surfaces) until = Math.max(until, opensAt(problem, fn, finish));
  return until;
}
