import { random, type Random } from '#kernel/random.ts';
import type { Placement, Plan } from '../model/plan.ts';
import type { Activity, Problem } from '../model/problem.ts';
import { between, chance, pick, range } from './draw.ts';
import type { Tables } from './planting/delays.ts';
import { films } from './planting/films.ts';
import { links } from './planting/links.ts';
import { fixing, forbidden, releases } from './planting/moments.ts';
import { published, refit } from './planting/promises.ts';
import { scene } from './planting/scene.ts';
import type { Sketch } from './planting/sketch.ts';
import { hasRoom, slots, type Slots } from './planting/slots.ts';
import { holds, resources, stocks } from './planting/supply.ts';
import { share, world, type Clock, type World } from './planting/world.ts';
import { worth } from './worth.ts';

/** A problem and a plan that is feasible for it, though hardly the best. */
export interface Planted {
  readonly problem: Problem;
  readonly plan: Plan;
}

function activity(
  rng: Random,
  world: World,
  one: Sketch,
  index: number,
  refits: number,
  now: number,
  { listOf, lists }: Slots,
): Activity {
  return {
    id: `activity-${index}`,
    refit: chance(rng, 0.15) ? null : rng.below(refits),
    modes: one.modes.map((mode, m) => {
      const used = m === one.mode;
      // Frozen work has no slot whatever its mode says; neither has what is not done.
      const possible = range(lists.length).filter((list) => hasRoom(now, lists[list], mode));
      const other = possible.length > 0 && chance(rng, 0.2) ? pick(rng, possible) : null;
      return {
        ...mode,
        forbidden: forbidden(rng, world, one, m, `weather-${index}-${m}`),
        slots: used && one.place && !one.frozen ? listOf[index] : other,
      };
    }),
    releases: releases(rng, world, one, `truck-${index}`),
    parts: one.parts,
    fixed: fixing(rng, one),
    source: `task-${index}`,
  };
}

const placementOf = (one: Sketch, activity: number, slot: number | null): Placement[] =>
  one.place
    ? [{ activity, mode: one.mode, ...one.place, crew: one.crew, overtime: one.overtime, slot }]
    : [];

/**
 * A made-up problem of `size` activities (2 to 1000) with a feasible plan, the same for
 * the same seed: the plan is made first, then constraints that it meets, half of them
 * exactly. `clock` shrinks time; by default days have 1440 minutes.
 */
export function plantedProblem(seed: number, size: number, clock?: Clock): Planted {
  const rng = random(Math.imul(seed, 2654435761) ^ size);
  const time = clock ?? { day: 1440, days: 2 + Math.ceil(size / 6) };
  const place = world(rng, time, size);
  const { horizon } = place;
  const tables: Tables = { horizon, list: [] };
  const made = scene(rng, place, size);
  const now = chance(rng, 0.5) ? 0 : rng.below(share(time, 1));
  const booked = slots(rng, place, now, made);
  const { lags, choices, branches } = links(rng, place, tables, made);
  const surfaces = films(rng, place, tables, made);
  const held = holds(rng, place, tables, made);
  const count = between(rng, 1, 3);
  const activities = made.map((one, a) => activity(rng, place, one, a, count, now, booked));
  const refits = range(count).map((r) => {
    const own = made.filter((_, a) => activities[a].refit === r);
    return refit(rng, place, r, Math.max(0, ...own.map((one) => one.place?.finish ?? 0)));
  });
  const problem: Problem = {
    version: 2,
    origin: chance(rng, 0.5) ? '2031-03-03T00:00:00Z' : null,
    now,
    horizon,
    skills: place.skills,
    calendars: place.calendars,
    builders: place.builders,
    resources: resources(rng, place, tables, made, held),
    stocks: stocks(rng, place, made),
    spaces: place.spaces,
    barriers: place.barriers,
    parts: place.parts,
    slotLists: booked.lists,
    activities,
    tables: tables.list,
    lags,
    choices,
    surfaces,
    holds: held,
    refits,
    published: published(rng, place, made),
    tolerances: [
      chance(rng, 0.6) ? 0 : rng.below(share(time, 0.2)),
      rng.below(share(time, 0.5)),
      rng.below(30),
    ],
  };
  const placements = made.flatMap((one, a) => placementOf(one, a, booked.slotOf[a]));
  return { problem, plan: { placements, branches, ...worth(problem, placements) } };
}

/** A planted problem small enough to be tried out whole: at most six activities in 39 minutes. */
export const tinyProblem = (seed: number, size: number): Planted =>
  plantedProblem(seed, size, { day: 13, days: 3 });
