import type { Random } from '#kernel/random.ts';
import { plainMode } from '../../model/plain.ts';
import type { Air, CrewDemand, Mode } from '../../model/problem.ts';
import { between, chance, pick, range, sample } from '../draw.ts';
import { share, type World } from './world.ts';

/** What sort of work an activity is; `wait` has nobody on it, `word` no minutes either. */
export type Sort = Air | 'wait' | 'word';

/** A mode and people who can do it: `serves[i]` is the demand that `builders[i]` serves. */
export interface Crewed {
  readonly mode: Mode;
  readonly builders: readonly number[];
  readonly serves: readonly number[];
  readonly minutes: number;
}

interface Member {
  readonly builder: number;
  readonly skill: number;
  readonly level: number;
  readonly speed: number;
}

/** People, each with the skill to serve; whoever needs a senior gets one or stays away. */
function members(rng: Random, world: World): Member[] {
  const everybody = range(world.builders.length);
  const asked = sample(rng, everybody, chance(rng, 0.35) ? between(rng, 2, 3) : 1);
  const found: Member[] = [];
  const join = (builder: number): void => {
    if (found.some((one) => one.builder === builder)) return;
    const ability = pick(rng, world.builders[builder].abilities);
    const { skill, level, speed, needsSenior } = ability;
    if (needsSenior) {
      const seniors = everybody.filter((other) =>
        world.builders[other].abilities.some(
          (one) => one.skill === skill && one.level > level && !one.needsSenior,
        ),
      );
      if (seniors.length === 0) return;
      const senior = pick(rng, seniors);
      if (!found.some((one) => one.builder === senior)) {
        const own = world.builders[senior].abilities.find((one) => one.skill === skill);
        if (!own) return;
        found.push({ builder: senior, skill, level: own.level, speed: own.speed });
      }
    }
    found.push({ builder, skill, level, speed });
  };
  asked.forEach(join);
  return found;
}

/** Somebody who can do something alone, for where nobody of the draw could. */
function alone(rng: Random, world: World): Member[] {
  const able = world.builders.flatMap(({ abilities }, builder) =>
    abilities.flatMap(({ skill, level, speed, needsSenior }) =>
      needsSenior ? [] : [{ builder, skill, level, speed }],
    ),
  );
  return able.length === 0 ? [] : [pick(rng, able)];
}

/** People first, then demands that they meet. */
function crewOf(
  rng: Random,
  world: World,
): Omit<Crewed, 'mode' | 'minutes'> & { crew: CrewDemand[]; speed: number } {
  let people = members(rng, world);
  if (people.length === 0) people = alone(rng, world);
  const crew: { skill: number; minLevel: number; count: number }[] = [];
  const serves = people.map(({ skill, level }) => {
    const same = crew.findIndex((demand) => demand.skill === skill && demand.minLevel <= level);
    if (same >= 0) {
      crew[same].count++;
      return same;
    }
    return crew.push({ skill, minLevel: between(rng, 1, level), count: 1 }) - 1;
  });
  return {
    builders: people.map(({ builder }) => builder),
    serves,
    crew,
    speed: people.reduce((sum, { speed }) => sum + speed, 0),
  };
}

const demandsOf = (rng: Random, world: World, splittable: boolean): Mode['demands'] =>
  sample(rng, range(world.tools.length), rng.below(3)).map((resource) => ({
    resource,
    amount: between(rng, 1, 3),
    keptWhilePaused: splittable && chance(rng, 0.5),
  }));

/** A mode of the sort with people who can do it; nothing is said of stocks, slots and parts. */
export function crewed(rng: Random, world: World, sort: Sort): Crewed {
  const { clock } = world;
  const wait = sort === 'wait' || sort === 'word';
  const splittable =
    sort === 'dusty'
      ? chance(rng, 0.8)
      : sort === 'clean'
        ? chance(rng, 0.5)
        : sort === 'wait' && chance(rng, 0.4);
  const common = plainMode({
    demands: sort === 'word' ? [] : demandsOf(rng, world, splittable),
    consumes: sample(rng, range(world.stocks), rng.below(2)).map((stock) => ({
      stock,
      amount: between(rng, 1, 9),
    })),
    splittable,
    breaks: chance(rng, 0.6) ? 'relieved' : 'observed',
    space: chance(rng, 0.1) ? null : rng.below(world.spaces.length),
    air: wait ? 'clean' : sort,
    cost: chance(rng, 0.3) ? between(rng, 1, 50) : 0,
  });
  const { builders, serves, crew, speed } = wait
    ? { builders: [], serves: [], crew: [], speed: 0 }
    : crewOf(rng, world);
  if (crew.length === 0) {
    const duration = sort === 'word' ? 0 : between(rng, 1, share(clock, 0.3));
    return { mode: { ...common, duration }, builders: [], serves: [], minutes: duration };
  }
  const target = between(rng, 1, share(clock, splittable ? 0.4 : 0.12));
  const work = Math.max(1, target * speed - rng.below(speed));
  const floor = chance(rng, 0.2) ? between(rng, 1, target + 1) : 0;
  const cleanDown = !splittable && chance(rng, 0.4) ? between(rng, 1, share(clock, 0.04)) : 0;
  return {
    mode: { ...common, work, floor, crew, cleanDown },
    builders,
    serves,
    minutes: Math.max(floor, Math.ceil(work / speed)),
  };
}
