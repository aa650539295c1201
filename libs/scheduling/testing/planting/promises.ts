import type { Random } from '#kernel/random.ts';
import type { Published, Refit } from '../../model/problem.ts';
import { between, chance, range, sample } from '../draw.ts';
import type { Sketch } from './sketch.ts';
import { share, type World } from './world.ts';

/** A refit that finishes at `finish` in the planted plan, due before or after, by any day or by slots. */
export function refit(rng: Random, world: World, index: number, finish: number): Refit {
  const { clock } = world;
  const due = chance(rng, 0.2)
    ? null
    : Math.max(0, finish + between(rng, -1, 1) * rng.below(share(clock, 1)));
  const handovers = chance(rng, 0.6)
    ? []
    : [
        ...new Set(
          range(between(rng, 1, 3)).map(() => finish + rng.below(clock.day * 2) - clock.day),
        ),
      ]
        .map((moment) => Math.min(world.horizon, Math.max(0, moment)))
        .sort((a, b) => a - b)
        .filter((moment, i, all) => all.indexOf(moment) === i);
  return {
    id: `refit-${index}`,
    release: due === null ? 0 : rng.below(Math.min(due, share(clock, 0.5)) + 1),
    due,
    handovers,
    weight: rng.below(6),
    source: `boat-${index}`,
  };
}

/** What people were told: much as planted, some of it otherwise, some of it of absent work. */
export function published(
  rng: Random,
  world: World,
  sketches: readonly Sketch[],
): Published | null {
  if (chance(rng, 0.5)) return null;
  const told = sample(rng, range(sketches.length), between(rng, 1, sketches.length));
  const tolerance = rng.below(share(world.clock, 0.05));
  return {
    tolerance,
    tasks: told
      .sort((a, b) => a - b)
      .map((activity) => {
        const { place, crew } = sketches[activity];
        const at = place?.start ?? rng.below(world.horizon);
        const off = chance(rng, 0.5) ? 0 : rng.below(2 * tolerance + 3) - tolerance - 1;
        const same = crew.map(({ builder }) => builder);
        return {
          activity,
          start: Math.max(0, at + off),
          builders: chance(rng, 0.6)
            ? same
            : sample(rng, range(world.builders.length), rng.below(3)).sort((a, b) => a - b),
          weight: rng.below(6),
        };
      }),
  };
}
