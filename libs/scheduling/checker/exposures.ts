import { functionFor, opensAt } from '../model/lag.ts';
import type { Interval, OpenSurface } from '../model/problem.ts';
import { moves } from './parts.ts';
import type { Reading, Work } from './reading.ts';

/** What dust may not reach, and when. */
export interface Exposure extends Interval {
  readonly activity: number;
  readonly space: number;
  readonly what: string;
}

/** Where the film is and when: with the part while that is moved, in both spaces during a move. */
function places(
  reading: Reading,
  { placement, activity, mode }: Work,
): (Interval & { space: number })[] {
  const later = activity.parts
    .slice(0, 1)
    .flatMap((part) => moves(reading, part))
    .filter((move) => move.placement.activity !== placement.activity)
    .filter((move) => move.placement.finish > placement.start);
  const stays = [
    { space: mode.space, start: placement.start },
    ...later.map((move) => ({
      space: move.mode.movesTo,
      start: Math.max(placement.start, move.placement.start),
    })),
  ];
  return stays.flatMap(({ space, start }, i) => {
    const end = i < later.length ? later[i].placement.finish : Infinity;
    return space === null ? [] : [{ space, start, end }];
  });
}

/** When a surface is no longer open: at the first cover that is present, else when it is dust-safe. */
function safeAt(reading: Reading, { coveredBy, until }: OpenSurface, { placement }: Work): number {
  const covers = coveredBy.flatMap((cover) => reading.workOf[cover]?.placement.start ?? []);
  if (covers.length > 0) return Math.min(...covers);
  // An opening: between grid points the later value is the safe one.
  return opensAt(reading.problem, functionFor(until, placement.mode), placement.finish);
}

function ofSurface(reading: Reading, surface: OpenSurface): Exposure[] {
  const owner = reading.workOf[surface.activity];
  if (!owner) return [];
  const end = safeAt(reading, surface, owner);
  return places(reading, owner).map((place) => ({
    activity: surface.activity,
    space: place.space,
    start: place.start,
    end: Math.min(place.end, end),
    what: `open surface ${surface.id} of ${owner.activity.id}`,
  }));
}

/** Wet work while it lasts, and open surfaces. Work without a space shares no air. */
export function exposures(reading: Reading): Exposure[] {
  const wet = reading.work.flatMap(({ placement, mode, activity }): Exposure[] => {
    if (mode.air !== 'wet' || mode.space === null) return [];
    const { start, finish: end } = placement;
    const what = `wet work of ${activity.id}`;
    return [{ activity: placement.activity, space: mode.space, start, end, what }];
  });
  const open = reading.problem.surfaces.flatMap((surface) => ofSurface(reading, surface));
  return [...wet, ...open].filter(({ start, end }) => start < end);
}
