import type { Obstacle } from '../../model/plan.ts';
import { meets, taken, those } from '../located.ts';
import type { Rule } from './obstacle.ts';

/** Builders who are elsewhere. One who is met in several pieces lets go with the last before the planned start. */
export const people: Rule = (located, one) => {
  const { problem, sharing } = located;
  const own = taken(one);
  const found: Obstacle[] = [];
  for (const { builder } of one.placement.crew) {
    if (problem.builders[builder].unlimited) continue;
    for (const other of those(located, sharing.builders[builder])) {
      if (other.placement.activity === one.placement.activity) continue;
      const met = taken(other).filter((s) => own.some((x) => meets(x, s)));
      const last = met.findLast((s) => s.end <= one.placement.start) ?? met.at(-1);
      if (last)
        found.push({
          from: other.placement.activity,
          reason: { kind: 'builder', builder },
          until: last.end,
        });
    }
  }
  return found;
};
