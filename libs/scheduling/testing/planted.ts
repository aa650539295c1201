import { random, type Random } from '#kernel/random.ts';
import type { Plan } from '../model/plan.ts';
import type { Activity, Interval, Problem, Refit } from '../model/problem.ts';
import type { Tables } from './delays.ts';
import { between, chance, range, shuffled } from './draw.ts';
import { ground } from './ground.ts';
import { links } from './links.ts';
import { sketch, type Sketch } from './sketch.ts';
import { supply } from './supply.ts';
import { part, world, type Clock, type World } from './world.ts';

/** A problem and a plan that is feasible for it, though hardly the best. */
export interface Planted {
  readonly problem: Problem;
  readonly plan: Plan;
}

/** Spans in which work may not start, none of which holds `start`. */
function forbidden(rng: Random, world: World, start: number): Interval[] {
  const spans: Interval[] = [];
  let from = 0;
  for (let left = rng.below(4); left > 0; left--) {
    const begin = from + rng.below(part(world.clock, 0.8));
    const end = Math.min(world.horizon, begin + between(rng, 1, part(world.clock, 0.3)));
    if (begin >= end) break;
    from = end + 1;
    if (start < begin || start >= end) spans.push({ start: begin, end });
    else if (begin < start) spans.push({ start: begin, end: start });
  }
  return spans;
}

function activity(rng: Random, world: World, one: Sketch, index: number, refits: number): Activity {
  const { slot, fixed } = one;
  const frozen = fixed?.kind === 'frozen';
  const start = slot?.start ?? -1;
  // Frozen work is excused from release and forbidden starts, so it may break them.
  const latest = slot && !frozen ? slot.start : Math.floor(world.horizon / 2);
  return {
    id: `activity-${index}`,
    refit: chance(rng, 0.15) ? null : rng.below(refits),
    modes: one.modes.map((mode) => ({
      ...mode,
      forbiddenStarts: chance(rng, 0.5) ? forbidden(rng, world, frozen ? -1 : start) : [],
    })),
    release: chance(rng, 0.4) ? latest - (chance(rng, 0.5) ? 0 : rng.below(latest + 1)) : 0,
    fixed,
    source: `task-${index}`,
  };
}

function refit(rng: Random, world: World, index: number, finish: number): Refit {
  const due = chance(rng, 0.2)
    ? null
    : Math.max(0, finish + between(rng, -1, 1) * rng.below(part(world.clock, 1)));
  return {
    id: `refit-${index}`,
    release: due === null ? 0 : rng.below(Math.min(due, part(world.clock, 0.5)) + 1),
    due,
    weight: rng.below(6),
    source: `boat-${index}`,
  };
}

/** Activities at random times, in random order, some of them absent, the first perhaps frozen. */
function sketches(
  rng: Random,
  world: World,
  tables: Tables,
  size: number,
  resources: number,
): Sketch[] {
  const g = ground(world);
  const absent = size < 4 ? 0 : rng.below(Math.ceil(size * 0.2) + 1);
  const frozen = chance(rng, 0.4) ? between(rng, 1, size < 8 ? 1 : 2) : 0;
  const made = range(size).map((k) =>
    sketch(rng, g, tables, {
      resources,
      from: Math.floor((world.horizon * 0.5 * k) / size) + rng.below(part(world.clock, 0.5)),
      absent: k >= size - absent,
      frozen: k < frozen,
    }),
  );
  return shuffled(rng, made);
}

function planOf(
  activities: readonly Activity[],
  made: readonly Sketch[],
  branches: readonly number[],
  refits: readonly Refit[],
): Plan {
  const placements = made.flatMap(({ slot, mode, crew }, a) =>
    slot ? [{ activity: a, mode, ...slot, crew }] : [],
  );
  const finishes = refits.map((_, r) =>
    Math.max(
      0,
      ...placements.filter((p) => activities[p.activity].refit === r).map((p) => p.finish),
    ),
  );
  const late = refits.map(
    ({ due, weight }, r) => weight * Math.max(0, finishes[r] - (due ?? Infinity)),
  );
  const done = refits.map(({ weight }, r) => weight * finishes[r]);
  const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
  return { placements, branches, finishes, values: [sum(late), sum(done)] };
}

/**
 * A made-up problem of `size` activities (4 to 40) with a feasible plan, the same for
 * the same seed: the plan is made first, then constraints that it meets, half of them
 * exactly. `clock` shrinks time; by default days have 1440 minutes.
 */
export function plantedProblem(seed: number, size: number, clock?: Clock): Planted {
  const rng = random(Math.imul(seed, 2654435761) ^ size);
  const time = clock ?? { day: 1440, days: 2 + Math.ceil(size / 6) };
  const place = world(rng, time, 2 + Math.floor(size / 8));
  const resources = 1 + rng.below(3);
  const tables: Tables = { horizon: place.horizon, list: [] };
  const made = sketches(rng, place, tables, size, resources);
  const { lags, choices, surfaces, branches } = links(rng, place, tables, made);
  const count = between(rng, 1, 3);
  const activities = made.map((one, a) => activity(rng, place, one, a, count));
  const finishOf = (r: number): number =>
    Math.max(
      0,
      ...made.map(({ slot }, a) => (activities[a].refit === r ? (slot?.finish ?? 0) : 0)),
    );
  const refits = range(count).map((r) => refit(rng, place, r, finishOf(r)));
  const problem: Problem = {
    version: 1,
    origin: chance(rng, 0.5) ? '2031-03-03T00:00:00Z' : null,
    horizon: place.horizon,
    skills: place.skills,
    calendars: place.calendars,
    builders: place.builders,
    resources: supply(rng, place, made, resources),
    spaces: place.spaces,
    activities,
    tables: tables.list,
    lags,
    choices,
    surfaces,
    refits,
    tolerances: [0, rng.below(part(time, 0.5))],
  };
  return { problem, plan: planOf(activities, made, branches, refits) };
}

/** A planted problem small enough to be tried out whole: at most six activities in 39 minutes. */
export const tinyProblem = (seed: number, size: number): Planted =>
  plantedProblem(seed, size, { day: 13, days: 3 });
