import type { Located, LocatedPlan } from '../located.ts';
import { idOf, inOrder, placedOf, same, type KeptOrders, type Stretch } from './kept.ts';

/** An activity with its clean-down. */
export function whole(one: Located): Stretch {
  const { start, end, freed } = one.shape;
  const latest = freed === end ? same : (s: number): number => s - (freed - end);
  return {
    owner: idOf(one),
    start,
    end: freed,
    ends: [{ before: idOf(one), anchor: 'finish', latest }],
  };
}

/** An activity without its clean-down. */
export function film(one: Located): Stretch {
  const { start, end } = one.shape;
  return {
    owner: idOf(one),
    start,
    end,
    ends: [{ before: idOf(one), anchor: 'finish', latest: same }],
  };
}

/** Work that shares a builder keeps its order, or stays where it is if it overlaps. */
export function keepPeople(located: LocatedPlan, kept: KeptOrders): void {
  const { builders } = located.problem;
  const placed = placedOf(located).filter(({ shape }) => shape.start < shape.freed);
  const shares = (x: Located, y: Located): boolean =>
    x.placement.crew.some(
      (a) =>
        !builders[a.builder].unlimited && y.placement.crew.some((b) => a.builder === b.builder),
    );
  placed.forEach((x, i) => {
    for (const y of placed.slice(i + 1))
      if (shares(x, y) && !inOrder(kept, whole(x), whole(y))) kept.woven.add(idOf(x)).add(idOf(y));
  });
}

/** Work on one part keeps its order, and so finds it where it is; acts on a barrier stay where they are. */
export function keepParts(located: LocatedPlan, kept: KeptOrders): void {
  const placed = placedOf(located);
  located.problem.parts.forEach((_, part) => {
    const on = placed.filter(({ activity }) => activity.parts.includes(part));
    on.forEach((x, i) => {
      for (const y of on.slice(i + 1)) {
        const moments = x.shape.start === y.shape.start && x.shape.end === y.shape.end;
        // Two of no minutes at one moment have no order to keep.
        if (moments || !inOrder(kept, film(x), film(y))) kept.woven.add(idOf(x)).add(idOf(y));
      }
    });
  });
  for (const one of placed) if (one.mode.barrier !== null) kept.woven.add(idOf(one));
}
