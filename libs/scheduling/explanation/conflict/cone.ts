import type { Analysis } from '../../bounds/critical-path.ts';
import { positiveCircle } from '../../bounds/cycles.ts';

/** Activities and lags behind a failure of propagation. */
export interface Cone {
  readonly activities: ReadonlySet<number>;
  readonly lags: ReadonlySet<number>;
}

/** Whence the bounds came that clash, walked back along the lags that set them last; null where that is not known. */
export function coneOf({ root, assumed, domains, empty, deadChoice }: Analysis): Cone | null {
  if (empty < 0) {
    const circle = deadChoice < 0 ? positiveCircle(root, assumed) : null;
    return circle && { activities: new Set(circle.activities), lags: new Set(circle.lags) };
  }
  const activities = new Set([empty]);
  const lags = new Set<number>();
  for (const a of activities)
    for (const l of [domains.lowerBy[a], domains.upperBy[a]]) {
      if (l < 0) continue;
      lags.add(l);
      activities.add(root.problem.lags[l].from).add(root.problem.lags[l].to);
    }
  return { activities, lags };
}
