import type { Lag, Problem } from '../../model/problem.ts';
import { isPure } from '../exact/pure.ts';
import { pureSeats } from './pure-seats.ts';
import type { Seat } from './seat.ts';
import { wholeSeats } from './whole-seats.ts';

const waitsOnly = ({ fromAnchor, toAnchor, bound, fns: [fn] }: Lag): boolean =>
  bound === 'open' &&
  fromAnchor === 'finish' &&
  toAnchor === 'start' &&
  fn.kind === 'constant' &&
  fn.minutes === 0;

/** Whether nothing but other work is waited for; lists are dearer where more is asked. */
const isPlain = ({ lags, activities }: Problem): boolean =>
  lags.every(waitsOnly) &&
  activities.every(({ refit, releases }) => refit !== null && releases.every(({ at }) => at <= 0));

/**
 * The searchers of a problem, by its kind and size. The first begins at once; the others join when
 * it would have decided an easy problem, so that none of those waits for their making.
 */
export function rosterOf(problem: Problem): readonly Seat[] {
  const n = problem.activities.length;
  if (!isPure(problem)) return wholeSeats(n);
  return pureSeats(n, !isPlain(problem));
}
