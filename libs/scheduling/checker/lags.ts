import { lagAt } from '../model/lag.ts';
import type { Reading } from './reading.ts';
import type { Violation } from './violation.ts';

/** Every lag between present activities that belongs to no branch or to a branch taken. */
export function lags(reading: Reading): Violation[] {
  const found: Violation[] = [];
  reading.problem.lags.forEach((lag, index) => {
    const from = reading.workOf[lag.from];
    const to = reading.workOf[lag.to];
    if (!from || !to || !reading.lagHolds[index]) return;
    const anchor = from.placement[lag.fromAnchor];
    const limit = lagAt(reading.problem, lag, from.placement.mode, anchor);
    const moment = to.placement[lag.toAnchor];
    const opening = lag.bound === 'open';
    if (opening ? moment >= limit : moment <= limit) return;
    found.push({
      kind: opening ? 'lag-open' : 'lag-close',
      activities: [...new Set([lag.from, lag.to])],
      constraint: { kind: 'lag', lag: index },
      message: `${lag.toAnchor} of ${to.activity.id} at ${moment} is ${opening ? 'before' : 'after'} ${limit}, where ${lag.kind} ${opening ? 'opens' : 'closes'} for the ${lag.fromAnchor} of ${from.activity.id} at ${anchor}`,
    });
  });
  return found;
}
