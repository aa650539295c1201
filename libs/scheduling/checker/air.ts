import { opensAt } from '../model/lag.ts';
import type { Interval } from '../model/problem.ts';
import type { Reading } from './reading.ts';
import { meets } from './spans.ts';
import type { Violation } from './violation.ts';

interface Exposure extends Interval {
  readonly activity: number;
  readonly what: string;
}

/** Wet work and open surfaces, by the space they are in. Work without a space shares no air. */
function exposures(reading: Reading): Exposure[][] {
  const bySpace: Exposure[][] = reading.problem.spaces.map(() => []);
  for (const { placement, mode, activity } of reading.work)
    if (mode.air === 'wet' && mode.space !== null && placement.start < placement.finish)
      bySpace[mode.space].push({
        activity: placement.activity,
        start: placement.start,
        end: placement.finish,
        what: `wet work of ${activity.id}`,
      });
  for (const surface of reading.problem.surfaces) {
    const work = reading.workOf[surface.activity];
    if (!work || work.mode.space === null) continue;
    // An opening: between grid points the later value is the safe one.
    const end = opensAt(reading.problem, surface.until, work.placement.finish);
    if (end <= work.placement.start) continue;
    bySpace[work.mode.space].push({
      activity: surface.activity,
      start: work.placement.start,
      end,
      what: `open surface of ${work.activity.id}`,
    });
  }
  return bySpace;
}

/** Dust, while it is made and until it has settled, against everything that it reaches. */
export function air(reading: Reading): Violation[] {
  const { spaces } = reading.problem;
  const found: Violation[] = [];
  const bySpace = exposures(reading);
  for (const { placement, activity, mode } of reading.work) {
    if (mode.air !== 'dusty' || mode.space === null) continue;
    const { settling, dustReaches } = spaces[mode.space];
    const dust = placement.segments.map(({ start, end }) => ({ start, end: end + settling }));
    for (const space of new Set(dustReaches))
      for (const exposure of bySpace[space]) {
        const met = dust.find((span) => meets(span, exposure));
        if (!met) continue;
        found.push({
          kind: 'dust',
          activities: [placement.activity, exposure.activity],
          space,
          message: `dust of ${activity.id}, ${met.start}-${met.end} with settling, reaches the ${exposure.what}, ${exposure.start}-${exposure.end}, in ${spaces[space].id}`,
        });
      }
  }
  return found;
}
