import { earliestReaching, latestOpened } from '../../../model/lag-inverse.ts';
import { closesAt, functionFor, opensAt } from '../../../model/lag.ts';
import type { Anchor, LagFunctions, Problem } from '../../../model/problem.ts';
import type { Arc } from './arc.ts';

/** What the lag allows its `to` anchor when the `from` anchor, of work done in `mode`, is at `t`. */
export function anchorBound(problem: Problem, arc: Arc, mode: number, t: number): number {
  const fn = functionFor(arc.fns, mode);
  return arc.open ? opensAt(problem, fn, t) : closesAt(problem, fn, t);
}

/** The earliest `from` anchor for which a closing lag reaches `to`; Infinity if none does. */
export const anchorReaching = (problem: Problem, arc: Arc, mode: number, to: number): number =>
  earliestReaching(problem, functionFor(arc.fns, mode), to);

/** The latest `from` anchor for which an opening lag has opened by `to`; -Infinity if none has. */
export const anchorOpenBy = (problem: Problem, arc: Arc, mode: number, to: number): number =>
  latestOpened(problem, functionFor(arc.fns, mode), to);

type Moments = Readonly<Record<Anchor, number>>;

/** Whether the lag holds from work done in `mode` at these moments to other work at those. */
export function isKept(
  problem: Problem,
  arc: Arc,
  mode: number,
  from: Moments,
  to: Moments,
): boolean {
  const bound = anchorBound(problem, arc, mode, arc.fromFinish ? from.finish : from.start);
  const at = arc.toFinish ? to.finish : to.start;
  return arc.open ? at >= bound : at <= bound;
}

/** The latest of some openings of a finish, of work done in `mode`; -Infinity where there are none. */
export function lastOpening(
  problem: Problem,
  all: readonly LagFunctions[],
  mode: number,
  finish: number,
): number {
  let until = -Infinity;
  for (const fns of all) until = Math.max(until, opensAt(problem, functionFor(fns, mode), finish));
  return until;
}
