import type { Random } from '#kernel/random.ts';
import type { Mode, Slot, SlotList } from '../../model/problem.ts';
import { between, chance, pick, range, shuffled } from '../draw.ts';
import type { Sketch } from './sketch.ts';
import { share, type World } from './world.ts';

/** Lists of slots, and which an activity uses in its planted mode. */
export interface Slots {
  readonly lists: readonly SlotList[];
  /** By activity; null where it uses none. */
  readonly listOf: readonly (number | null)[];
  readonly slotOf: readonly (number | null)[];
}

/** A slot that the work just fits into, or nearly, and that can still be booked. */
function around(rng: Random, world: World, now: number, sketch: Sketch): Slot | null {
  if (!sketch.place) return null;
  const { start, finish } = sketch.place;
  const slack = (): number => (chance(rng, 0.5) ? 0 : rng.below(share(world.clock, 0.1)));
  return {
    start: start - slack(),
    end: Math.max(start + 1, finish + sketch.modes[sketch.mode].cleanDown + slack()),
    cost: rng.below(40),
    bookBy: now + (chance(rng, 0.5) ? 0 : rng.below(share(world.clock, 1))),
  };
}

function anywhere(rng: Random, world: World): Slot {
  const start = rng.below(world.horizon);
  const end = start + between(rng, 1, share(world.clock, 0.3));
  return { start, end, cost: rng.below(40), bookBy: rng.below(share(world.clock, 2)) };
}

/** Up to two lists, each with a few users, perhaps in the same slot. */
export function slots(rng: Random, world: World, now: number, sketches: readonly Sketch[]): Slots {
  const listOf: (number | null)[] = sketches.map(() => null);
  const slotOf: (number | null)[] = sketches.map(() => null);
  const free = shuffled(
    rng,
    range(sketches.length).filter((a) => sketches[a].place !== null && !sketches[a].frozen),
  ).sort((a, b) => sketches[a].modes[0].crew.length - sketches[b].modes[0].crew.length);
  const lists = range(rng.below(3)).map((list): SlotList => {
    const users = range(rng.below(3)).flatMap(() => free.splice(rng.below(free.length), 1));
    const own = users.map((a) => ({ a, slot: around(rng, world, now, sketches[a]) }));
    const made = [
      ...own.flatMap(({ slot }) => slot ?? []),
      ...range(rng.below(3)).map(() => anywhere(rng, world)),
    ].sort((a, b) => a.start - b.start);
    const sorted = made.length > 0 ? made : [anywhere(rng, world)];
    for (const { a, slot } of own) {
      listOf[a] = list;
      slotOf[a] = sorted.findIndex((one) => one === slot);
    }
    return { id: `slots-${list}`, slots: sorted, source: pick(rng, ['crane', 'tide', 'surveyor']) };
  });
  return { lists, listOf, slotOf };
}

/** Whether a bookable slot of the list is long enough for the mode, done by one slow builder. */
export function hasRoom(now: number, { slots: all }: SlotList, mode: Mode): boolean {
  const slow = mode.crew.length === 0 ? mode.duration : Math.ceil(mode.work / 60);
  const minutes = Math.max(mode.floor, slow) + mode.cleanDown;
  return all.some(({ start, end, bookBy }) => bookBy >= now && end - start >= minutes);
}
