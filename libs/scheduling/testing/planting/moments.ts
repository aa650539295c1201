import type { Random } from '#kernel/random.ts';
import type { FixedWork, Forbidden, Interval, Release } from '../../model/problem.ts';
import { between, chance, pick, range } from '../draw.ts';
import type { Sketch } from './sketch.ts';
import { share, type World } from './world.ts';

/** Spans none of which holds `moment`, often ending or beginning right beside it. */
function spansBeside(rng: Random, world: World, moment: number): Interval[] {
  const spans: Interval[] = [];
  let from = 0;
  for (let left = rng.below(4); left > 0; left--) {
    const begin = from + rng.below(share(world.clock, 0.8));
    const end = Math.min(world.horizon, begin + between(rng, 1, share(world.clock, 0.3)));
    if (begin >= end) break;
    from = end + 1;
    if (moment < begin || moment >= end) spans.push({ start: begin, end });
    else if (begin < moment) spans.push({ start: begin, end: moment });
  }
  return spans;
}

/** Frozen work and modes that were not used are excused, so that theirs may lie anywhere. */
export function forbidden(
  rng: Random,
  world: World,
  sketch: Sketch,
  mode: number,
  source: string,
): Forbidden[] {
  const bound = mode === sketch.mode && !sketch.frozen ? sketch.place : null;
  return range(rng.below(3)).map((k) => {
    const anchor = pick(rng, ['start', 'start', 'finish'] as const);
    const spans = spansBeside(rng, world, bound === null ? -1 : bound[anchor]);
    return {
      anchor,
      spans,
      kind: pick(rng, ['climate', 'dew', 'quiet']),
      source: `${source}-${k}`,
    };
  });
}

/** Up to two moments from which it may start, the later one often the start itself. */
export function releases(rng: Random, world: World, sketch: Sketch, source: string): Release[] {
  const latest =
    sketch.place && !sketch.frozen ? sketch.place.start : Math.floor(world.horizon / 2);
  return range(pick(rng, [0, 0, 0, 1, 1, 2])).map((k) => ({
    at: chance(rng, 0.5) ? latest : rng.below(latest + 1),
    kind: pick(rng, ['boat', 'delivery', 'word', 'now']),
    source: `${source}-${k}`,
  }));
}

/** What happened; or the foreman's wish that a moment or the people stay as they are. */
export function fixing(rng: Random, sketch: Sketch): FixedWork | null {
  const { place, crew, frozen } = sketch;
  if (!place) return null;
  const builders = crew.map(({ builder }) => builder);
  const { start, finish } = place;
  if (frozen) return { kind: 'frozen', start, finish, builders };
  if (!chance(rng, 0.15)) return null;
  const way = rng.below(4);
  return {
    kind: 'set',
    start: way === 0 || way === 3 ? start : null,
    finish: way === 1 || way === 3 ? finish : null,
    builders: way === 2 || chance(rng, 0.4) ? builders : null,
  };
}
