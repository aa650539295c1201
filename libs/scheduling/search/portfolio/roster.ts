import type { Problem } from '../../model/problem.ts';
import { isPure } from '../exact/pure.ts';
import { pureSeats } from './pure-seats.ts';
import type { Seat } from './seat.ts';
import { wholeSeats } from './whole-seats.ts';

/**
 * The searchers of a problem, by its kind and size. The first begins at once; the others join when
 * it would have decided an easy problem, so that none of those waits for their making.
 */
export function rosterOf(problem: Problem): readonly Seat[] {
  const n = problem.activities.length;
  if (!isPure(problem)) return wholeSeats(n);
  return pureSeats(
    n,
    problem.lags.some(({ bound }) => bound === 'close'),
  );
}
