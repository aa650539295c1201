import { type PlacedTask, replanted, type Taken } from '#live/disturbance/replant.ts';
import { TOLERANCE_MINUTES } from '#live/disturbance/tolerance.ts';
import type { Compiled } from '#planning/compile/compile.ts';
import { check } from '#scheduling/checker/check.ts';
import { ranks } from '#scheduling/checker/values.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem, Release } from '#scheduling/model/problem.ts';

/** A stored plan, as far as it says what is done when. */
export interface Placed {
  readonly placed: readonly PlacedTask[];
  readonly taken: readonly Taken[];
}

/**
 * The plan in the problem of now, if it can be worked to as it is; else null. Work that should have
 * begun within the tolerance may still begin.
 */
export function standingPlan({ problem, map }: Compiled, { placed, taken }: Placed): Plan | null {
  const found = replanted(problem, map, placed, taken);
  if (found === null) return null;
  const plan = { ...found, values: ranks(problem, found.placements, found.finishes) };
  return check(lenient(problem), plan).length === 0 ? plan : null;
}

/** The same problem a little earlier. */
function lenient(problem: Problem): Problem {
  const now = Math.max(0, problem.now - TOLERANCE_MINUTES);
  const earlier = (release: Release): Release =>
    release.kind === 'now' ? { ...release, at: now } : release;
  const activities = problem.activities.map((activity) => ({
    ...activity,
    releases: activity.releases.map(earlier),
  }));
  return { ...problem, now, activities };
}
