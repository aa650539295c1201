import type { Random } from '#kernel/random.ts';
import type { Air, CrewDemand, Mode } from '../model/problem.ts';
import { between, chance, pick, range, sample } from './draw.ts';
import { part, type World } from './world.ts';

/** What sort of work an activity is; `wait` has nobody on it. */
export type Sort = Air | 'wait';

/** A mode and people who can do it: `serves[i]` is the demand that `builders[i]` serves. */
export interface Crewed {
  readonly mode: Mode;
  readonly builders: readonly number[];
  readonly serves: readonly number[];
  readonly minutes: number;
}

/** People first, then demands that they meet. */
function crewOf(
  rng: Random,
  world: World,
): Omit<Crewed, 'mode' | 'minutes'> & {
  crew: CrewDemand[];
  speed: number;
} {
  const builders = sample(rng, range(world.builders.length), chance(rng, 0.3) ? 2 : 1);
  const crew: { skill: number; minLevel: number; count: number }[] = [];
  const serves: number[] = [];
  let speed = 0;
  for (const b of builders) {
    const ability = pick(rng, world.builders[b].abilities);
    speed += ability.speed;
    const level = between(rng, 1, ability.level);
    const same = crew.findIndex(
      (demand) => demand.skill === ability.skill && demand.minLevel <= ability.level,
    );
    if (same >= 0) {
      crew[same].count++;
      serves.push(same);
      continue;
    }
    serves.push(crew.length);
    crew.push({ skill: ability.skill, minLevel: level, count: 1 });
  }
  return { builders, serves, crew, speed };
}

function demandsOf(rng: Random, resources: number): Mode['demands'] {
  return sample(rng, range(resources), rng.below(3)).map((resource) => ({
    resource,
    amount: between(rng, 1, 3),
    keptWhilePaused: chance(rng, 0.5),
  }));
}

export function crewed(rng: Random, world: World, sort: Sort, resources: number): Crewed {
  const { clock } = world;
  const splittable = sort === 'dusty' ? chance(rng, 0.8) : sort === 'clean' && chance(rng, 0.5);
  const common = {
    demands: demandsOf(rng, resources),
    splittable,
    breaks: chance(rng, 0.6) ? ('relieved' as const) : ('observed' as const),
    forbiddenStarts: [],
    space: chance(rng, 0.1) ? null : rng.below(world.spaces.length),
    air: sort === 'wait' ? ('clean' as const) : sort,
  };
  if (sort === 'wait') {
    const duration = chance(rng, 0.25) ? 0 : between(rng, 1, part(clock, 0.3));
    const mode = { ...common, splittable: false, duration, work: 0, floor: 0, crew: [] };
    return { mode, builders: [], serves: [], minutes: duration };
  }
  const { builders, serves, crew, speed } = crewOf(rng, world);
  const target = between(rng, 1, part(clock, splittable ? 0.4 : 0.12));
  const work = Math.max(1, target * speed - rng.below(speed));
  const floor = chance(rng, 0.2) ? between(rng, 1, target + 1) : 0;
  return {
    mode: { ...common, duration: 0, work, floor, crew },
    builders,
    serves,
    minutes: Math.max(floor, Math.ceil(work / speed)),
  };
}
