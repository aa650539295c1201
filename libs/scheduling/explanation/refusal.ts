import type { EarlierRefusal, Obstacle, Placement, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { locate, shapeAt, type Located, type LocatedPlan } from './located.ts';
import { obstaclesAt } from './obstacles/at.ts';

/** Looks for the end of one obstacle at most so often; what is left is cut off at the planned start. */
const LOOKS = 200;

/** The first start after `at` at which the same reason no longer refuses it. */
function letsGo(located: LocatedPlan, one: Located, obstacle: Obstacle): Obstacle {
  const { start: planned } = one.placement;
  const key = JSON.stringify(obstacle.reason);
  let last = obstacle;
  for (let look = 0; look < LOOKS && last.until < planned; look += 1) {
    const again = obstaclesAt(located, one, last.until).find(
      ({ reason }) => JSON.stringify(reason) === key,
    );
    if (again === undefined) return last;
    last = again;
  }
  return { ...last, until: planned };
}

/**
 * What refuses a placed activity the start `at`, by default one minute before its planned one,
 * with everything else, its mode, crew, overtime and slot as planned. An obstacle's `until` is
 * the first start at which it no longer refuses; at one minute that is the planned start for
 * all of them, and ties are broken by kind: the foreman, lags, builders, parts, resources and
 * holds, barriers, dust, minute 0, releases, slots, forbidden moments, hours.
 */
export function whyNotEarlier(
  problem: Problem,
  plan: Plan,
  activity: number,
  at?: number,
): EarlierRefusal {
  const located = locate(problem, plan);
  const one = located.at[activity];
  if (!one) return { activity, at: at ?? 0, obstacles: [] };
  const asked = Math.min(at ?? Infinity, one.placement.start - 1);
  const obstacles = obstaclesAt(located, one, asked)
    .map((obstacle) => letsGo(located, one, obstacle))
    .toSorted((x, y) => y.until - x.until);
  return { activity, at: asked, obstacles };
}

/**
 * The plan with one placement so many minutes earlier: same mode, crew, overtime and slot, all
 * else as it was, finishes and values included. Minutes in which somebody does not work, from
 * its start to the next working minute, count as worked.
 */
export function nudged(problem: Problem, plan: Plan, activity: number, minutes = 1): Plan {
  const one = locate(problem, plan).at[activity];
  if (!one) return plan;
  const { start, end: finish, segments } = shapeAt(one, one.placement.start - minutes);
  const moved: Placement = { ...one.placement, start, finish, segments };
  return {
    ...plan,
    placements: plan.placements.map((p) => (p.activity === activity ? moved : p)),
  };
}
