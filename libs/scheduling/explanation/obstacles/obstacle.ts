import type { Obstacle } from '../../model/plan.ts';
import type { Located, LocatedPlan } from '../located.ts';

/**
 * What `one` runs into where it is in `located`; `plan` is the same with `one` as planned.
 * `until` is a start before which this does not let go, if nothing else changes; later than
 * the start asked about.
 */
export type Rule = (located: LocatedPlan, one: Located, plan: LocatedPlan) => Obstacle[];
