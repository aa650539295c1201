import type { Random } from '#kernel/random.ts';
import { between, chance, pick, range, sample, shuffled } from '../draw.ts';
import { ground, type Ground } from './ground.ts';
import type { Sort } from './modes.ts';
import { absent, place, type Intent, type Sketch } from './sketch.ts';
import { share, type World } from './world.ts';

const sorts: readonly Sort[] = [
  'wet',
  'wet',
  'wet',
  'dusty',
  'dusty',
  'clean',
  'clean',
  'wait',
  'word',
];

const plain: Intent = { sort: 'clean', parts: [], given: {}, film: null, frozen: false };

/** One thing after the other: what happened first in front of what is still to be done. */
function sequence(rng: Random, g: Ground, count: number, intents: () => Intent): Sketch[] {
  const { horizon, clock } = g.world;
  const made: Sketch[] = [];
  let frozen = count > 0 && chance(rng, 0.3);
  let from = frozen ? 0 - rng.below(share(clock, 0.5)) : rng.below(share(clock, 1));
  for (let k = 0; k < count; k++) {
    const one = place(rng, g, { ...intents(), frozen }, from, horizon);
    if (!one?.place) break;
    made.push(one);
    frozen = false;
    from = Math.max(0, one.place.finish) + rng.below(share(clock, 0.8));
  }
  return made;
}

/** A part on its way through the spaces. */
function journey(rng: Random, g: Ground, part: number, count: number): Sketch[] {
  const { spaces, parts } = g.world;
  let at = parts[part].space;
  return sequence(rng, g, count, () => {
    const movesTo = pick(
      rng,
      range(spaces.length).filter((space) => space !== at),
    );
    const space = chance(rng, 0.8) ? { space: at } : { space: null };
    at = movesTo;
    const sort = pick<Sort>(rng, ['clean', 'clean', 'clean', 'wait', 'dusty']);
    return { ...plain, sort, parts: [part], given: { movesTo, ...space } };
  });
}

/** A door opened and closed again. */
const doings = (rng: Random, g: Ground, barrier: number, count: number): Sketch[] =>
  sequence(rng, g, count, () => ({
    ...plain,
    sort: pick<Sort>(rng, ['clean', 'clean', 'wait']),
    given: { barrier: { barrier, closes: chance(rng, 0.6) } },
  }));

/** Work of any sort; where it is on parts, in the space in which they are around `from`. */
function anything(rng: Random, g: Ground, from: number, frozen: boolean): Intent {
  const { clock, parts } = g.world;
  const sort = frozen ? pick<Sort>(rng, ['wet', 'dusty', 'clean']) : pick(rng, sorts);
  const first = rng.below(parts.length);
  const at = g.where[first][g.lead + Math.max(0, from)];
  const beside = range(parts.length).filter(
    (p) => p !== first && g.where[p][g.lead + Math.max(0, from)] === at,
  );
  const own = chance(rng, 0.5) ? [first, ...(chance(rng, 0.2) ? beside.slice(0, 1) : [])] : [];
  const filmed = sort === 'wet' ? chance(rng, 0.7) : sort !== 'dusty' && chance(rng, 0.15);
  return {
    sort,
    parts: own,
    given: own.length === 0 || frozen ? {} : { space: at },
    film: filmed ? rng.below(share(clock, 0.6)) : null,
    frozen,
  };
}

/** An activity of a branch that is not taken: any sort, perhaps one that moves a part or a door. */
function elsewhere(rng: Random, g: Ground): Intent {
  const { spaces, barriers, parts } = g.world;
  const base = anything(rng, g, rng.below(g.world.horizon), false);
  if (base.sort === 'word' || chance(rng, 0.7)) return base;
  if (barriers.length > 0 && chance(rng, 0.5)) {
    const barrier = { barrier: rng.below(barriers.length), closes: chance(rng, 0.5) };
    return { ...base, given: { ...base.given, barrier } };
  }
  return {
    ...base,
    parts: [rng.below(parts.length)],
    given: { ...base.given, movesTo: rng.below(spaces.length) },
    film: null,
  };
}

/** Placed at or after `from`, or before, or else something that nobody does and that fits anywhere. */
function work(rng: Random, g: Ground, from: number, frozen: boolean): Sketch | null {
  const { horizon } = g.world;
  const intent = anything(rng, g, from, frozen);
  return (
    place(rng, g, intent, from, horizon) ??
    place(rng, g, { ...intent, frozen: false }, 0, from) ??
    place(rng, g, { ...plain, sort: 'word' }, 0, horizon)
  );
}

/**
 * `size` activities, some of them absent: first what parts and barriers go through, since all
 * else depends on it, then work at random times. In random order.
 */
export function scene(rng: Random, world: World, size: number): Sketch[] {
  const g = ground(world);
  const { horizon, clock, parts, barriers } = world;
  const made: Sketch[] = [];
  const ways = size < 3 ? 0 : Math.ceil(size * 0.35);
  const add = (sketches: readonly Sketch[]): void => {
    made.push(...sketches);
  };
  for (const p of shuffled(rng, range(parts.length)))
    add(journey(rng, g, p, Math.min(ways - made.length, rng.below(3))));
  for (const b of shuffled(rng, range(barriers.length)))
    add(doings(rng, g, b, Math.min(ways - made.length, rng.below(3))));
  const away = size < 4 ? 0 : rng.below(Math.ceil(size * 0.25) + 1);
  const frozen = chance(rng, 0.35) ? between(rng, 1, size < 8 ? 1 : 2) : 0;
  const rest = size - away - made.length;
  for (let k = 0; k < rest; k++) {
    const begun = k < frozen;
    const from = begun
      ? rng.below(share(clock, 1)) - Math.floor(clock.day / 2)
      : Math.floor((horizon * 0.5 * k) / size) + rng.below(share(clock, 0.5));
    add([work(rng, g, from, begun)].filter((one) => one !== null));
  }
  while (made.length < size) add([absent(rng, g, elsewhere(rng, g))]);
  return sample(rng, made, size);
}
