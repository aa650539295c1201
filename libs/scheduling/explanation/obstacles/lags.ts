import { earliestReaching } from '../../model/lag-inverse.ts';
import { startFor } from '../../bounds/solo.ts';
import { functionFor, lagAt } from '../../model/lag.ts';
import type { Obstacle } from '../../model/plan.ts';
import type { Anchor } from '../../model/problem.ts';
import type { Located } from '../located.ts';
import type { Rule } from './obstacle.ts';

export const anchorAt = ({ shape }: Located, anchor: Anchor): number =>
  anchor === 'start' ? shape.start : shape.end;

/** The start that puts the anchor at `t`, at the earliest. */
const startWith = ({ solo }: Located, anchor: Anchor, t: number): number =>
  anchor === 'start' ? t : startFor(solo.pausing, solo.minutes, t);

/** Openings that it would not have waited for, and windows of follow-ups that would have closed. */
export const lags: Rule = ({ problem, at, incoming, outgoing }, one) => {
  const found: Obstacle[] = [];
  const { activity: a } = one.placement;
  const add = (lag: number, other: number, until: number): void => {
    const from = other === a ? null : other;
    found.push({ from, reason: { kind: 'lag', lag }, until: Math.max(until, one.shape.start + 1) });
  };
  for (const l of incoming[a]) {
    const lag = problem.lags[l];
    const other = at[lag.from];
    if (!other || (lag.bound === 'close' && lag.from !== a)) continue;
    const limit = lagAt(problem, lag, other.placement.mode, anchorAt(other, lag.fromAnchor));
    const moment = anchorAt(one, lag.toAnchor);
    if (lag.bound === 'open' ? moment >= limit : moment <= limit) continue;
    // What a lag from itself asks for moves with it.
    add(l, lag.from, lag.from === a ? 0 : startWith(one, lag.toAnchor, limit));
  }
  for (const l of outgoing[a]) {
    const lag = problem.lags[l];
    const other = at[lag.to];
    if (!other || lag.bound === 'open' || lag.to === a) continue;
    const { mode } = one.placement;
    const moment = anchorAt(other, lag.toAnchor);
    if (moment <= lagAt(problem, lag, mode, anchorAt(one, lag.fromAnchor))) continue;
    const least = earliestReaching(problem, functionFor(lag.fns, mode), moment);
    add(l, lag.to, startWith(one, lag.fromAnchor, least));
  }
  return found;
};
