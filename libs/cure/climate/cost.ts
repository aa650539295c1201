import type { ClimateChange } from './settings.ts';

const DAY = 1440;

/**
 * Cents that changes cost from minute 0 to the horizon: each for the days of its own (of 24
 * hours from when it is set up) that begin in that time. Days begun before are spent already.
 */
export function changesCost(
  changes: readonly Pick<ClimateChange, 'from' | 'to' | 'costPerDay'>[],
  horizon: number,
): number {
  return changes.reduce((sum, { from, to, costPerDay }) => {
    const begunBefore = Math.max(0, Math.ceil(-from / DAY));
    const begun = Math.max(0, Math.ceil((Math.min(to, horizon) - from) / DAY));
    return sum + Math.max(0, begun - begunBefore) * costPerDay;
  }, 0);
}
