import type { Obstacle } from '../../model/plan.ts';
import { meets, taken } from '../located.ts';
import type { Rule } from './obstacle.ts';

/** Builders who are elsewhere. One who is met in several pieces lets go with the last before the planned start. */
export const people: Rule = (located, one) => {
  const { problem, sharing, at } = located;
  const own = taken(one);
  const found: Obstacle[] = [];
  for (const { builder } of one.placement.crew) {
    if (problem.builders[builder].unlimited) continue;
    for (const a of sharing.builders[builder]) {
      const other = at[a];
      if (!other || a === one.placement.activity) continue;
      if (other.shape.freed <= one.shape.start || one.shape.freed <= other.shape.start) continue;
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
