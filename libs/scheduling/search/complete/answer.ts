import type { Plan, RankValues } from '../../model/plan.ts';
import type { Interval } from '../../model/problem.ts';
import { copyDomains, emptyDomains, settleOn, type Domains } from './domains.ts';
import { NO_LIMITS, type Room } from './room.ts';
import type { World } from './world.ts';

/** The plan of domains in which all are placed. */
export function planOf(world: World, { placed }: Domains, values: RankValues): Plan {
  const { problem } = world;
  const finishes = problem.refits.map(() => 0);
  const placements = world.domains.map((domain, k) => {
    const { way, start, finish, segments } = domain[placed[k]];
    const { refit } = problem.activities[way.activity];
    if (refit !== null) finishes[refit] = Math.max(finishes[refit], finish);
    const { activity, mode, crew, overtime, slot } = way;
    return { activity, mode, start, finish, segments, crew, overtime, slot };
  });
  return { placements, branches: world.branches, finishes, values };
}

const sameSpans = (a: readonly Interval[], b: readonly Interval[]): boolean =>
  a.length === b.length && a.every((span, i) => span.start === b[i].start && span.end === b[i].end);

/** By local index, the candidate that a plan takes; null where it belongs to another world. */
function takenBy(world: World, plan: Plan): number[] | null {
  if (plan.branches.join() !== world.branches.join()) return null;
  const people = (crew: Plan['placements'][0]['crew']): string =>
    crew
      .map(({ builder }) => builder)
      .sort((a, b) => a - b)
      .join();
  const found = world.activities.map((activity, k) => {
    const own = plan.placements.find((placement) => placement.activity === activity);
    if (own === undefined) return -1;
    return world.domains[k].findIndex(
      ({ way, start, finish, segments }) =>
        start === own.start &&
        finish === own.finish &&
        way.mode === own.mode &&
        // Overtime without a minute of it is no overtime here.
        (way.overtime === own.overtime || !way.overtime) &&
        sameSpans(segments, own.segments) &&
        way.slot === own.slot &&
        people(way.crew) === people(own.crew),
    );
  });
  return found.includes(-1) ? null : found;
}

/** A plan of perhaps another problem in the room, where every rule allows it; else null. */
export function enter(
  { world, propagation, rules }: Room,
  root: Domains,
  plan: Plan,
): Domains | null {
  const taken = takenBy(world, plan);
  if (taken === null) return null;
  const domains = emptyDomains(world);
  copyDomains(root, domains);
  for (const [k, c] of taken.entries()) {
    if (!domains.live[k].subarray(0, domains.count[k]).includes(c)) return null;
    settleOn(world, domains, k, c);
    if (!propagation.place(domains, k)) return null;
  }
  return rules.fits(domains) && propagation.settle(domains, NO_LIMITS) ? domains : null;
}
