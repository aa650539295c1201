import type { Random } from '#kernel/random.ts';
import type { OpenSurface } from '../../model/problem.ts';
import { between, chance, pick, range, sample } from '../draw.ts';
import { meetings, type Tables } from './delays.ts';
import type { Sketch } from './sketch.ts';
import { share, type World } from './world.ts';

/**
 * A surface on every activity for which the air was kept clear: safe by a function of its finish
 * no later than it was kept clear, or covered by then, in which case the function may say anything.
 */
export function films(
  rng: Random,
  world: World,
  tables: Tables,
  sketches: readonly Sketch[],
): OpenSurface[] {
  return sketches.flatMap((sketch, activity) => {
    if (sketch.film === null) return [];
    const finish = sketch.place?.finish ?? rng.below(world.horizon);
    const clearUntil = finish + sketch.film;
    const others = range(sketches.length).filter((a) => a !== activity);
    const inTime = others.filter((a) => {
      const cover = sketches[a].place;
      return cover !== null && cover.start <= clearUntil;
    });
    const away = others.filter((a) => sketches[a].place === null);
    const covered = inTime.length > 0 && chance(rng, 0.5);
    const later = sample(rng, others, rng.below(2));
    const coveredBy = covered
      ? [...new Set([pick(rng, inTime), ...later])]
      : sample(rng, away, rng.below(2));
    const until = covered ? finish + between(rng, 0, share(world.clock, 2)) : clearUntil;
    return [
      {
        id: `film-${activity}`,
        activity,
        until: meetings(rng, world, tables, 'open', sketch, finish, until),
        coveredBy,
        source: `coat-${activity}`,
      },
    ];
  });
}
