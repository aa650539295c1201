import type { Constraint } from '../../model/constraint.ts';
import type { Obstacle } from '../../model/plan.ts';
import { moved, type Located, type LocatedPlan } from '../located.ts';
import { air } from './air.ts';
import { lags } from './lags.ts';
import { beginning, forbidden, hours, placed, releases, slots } from './moments.ts';
import type { Rule } from './obstacle.ts';
import { barriers, parts } from './parts.ts';
import { people } from './people.ts';
import { supplies } from './supplies.ts';

/** What others do, in the order in which ties are broken. */
const OTHERS: readonly Rule[] = [lags, people, parts, supplies, barriers, air];
/** What the activity would meet alone in the yard. */
const ALONE: readonly Rule[] = [placed, beginning, releases, slots, forbidden, hours];

const sameReason = (a: Constraint, b: Constraint): boolean =>
  JSON.stringify(a) === JSON.stringify(b);

/** Each reason once, with what lasts longest of it, no longer than to the planned start. */
function each(found: readonly Obstacle[], start: number, planned: number): Obstacle[] {
  const kept: Obstacle[] = [];
  for (const obstacle of found) {
    const until = planned > start ? Math.min(obstacle.until, planned) : obstacle.until;
    if (until <= start) continue;
    const known = kept.findIndex(({ reason }) => sameReason(reason, obstacle.reason));
    if (known < 0) kept.push({ ...obstacle, until });
    else if (kept[known].until < until) kept[known] = { ...obstacle, until };
  }
  return kept;
}

function found(
  rules: readonly Rule[],
  located: LocatedPlan,
  activity: number,
  start: number,
): Obstacle[] {
  const then = moved(located, activity, start);
  const one = then.at[activity];
  if (!one) return [];
  const all = rules.flatMap((rule) => rule(then, one, located));
  return each(all, start, one.placement.start);
}

/** What others do that an activity would run into if it started at `start`. */
export const othersAt = (located: LocatedPlan, one: Located, start: number): Obstacle[] =>
  found(OTHERS, located, one.placement.activity, start);

/** What an activity would run into alone in the yard if it started at `start`. */
export const aloneAt = (located: LocatedPlan, one: Located, start: number): Obstacle[] =>
  found(ALONE, located, one.placement.activity, start);

/** Everything that a start would run into, ties in this order: the foreman's word, others, its own moments. */
export const obstaclesAt = (located: LocatedPlan, one: Located, start: number): Obstacle[] =>
  found([placed, ...OTHERS, ...ALONE.slice(1)], located, one.placement.activity, start);
