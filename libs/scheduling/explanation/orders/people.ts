import { those, type Located, type LocatedPlan } from '../located.ts';
import { idOf, inOrderAll, placedOf, same, type KeptOrders, type Stretch } from './kept.ts';

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
  const { problem, sharing } = located;
  sharing.builders.forEach((activities, builder) => {
    if (problem.builders[builder].unlimited) return;
    const placed = those(located, activities).filter(({ shape }) => shape.start < shape.freed);
    inOrderAll(kept, placed.map(whole), (x, y) => {
      kept.woven.add(x.owner).add(y.owner);
    });
  });
}

/** Work on one part keeps its order, and so finds it where it is; acts on a barrier stay where they are. */
export function keepParts(located: LocatedPlan, kept: KeptOrders): void {
  const stay = (x: Stretch, y: Stretch): void => {
    kept.woven.add(x.owner).add(y.owner);
  };
  for (const activities of located.sharing.parts) {
    const films = those(located, activities).map(film);
    inOrderAll(kept, films, stay);
    // Two of no minutes at one moment have no order to keep.
    for (const x of films)
      if (x.start === x.end)
        for (const y of films) if (x !== y && y.start === x.start && y.end === x.end) stay(x, y);
  }
  for (const one of placedOf(located)) if (one.mode.barrier !== null) kept.woven.add(idOf(one));
}
