import { changesCost } from '#cure/climate/cost.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Frame } from '../frame/time.ts';

/**
 * What the yard's tents, heaters and dehumidifiers cost over the plan's time, cents: those of
 * their days that begin in it. It is the yard's doing and no choice of the engine, so it is no
 * part of a plan's worth.
 */
export function climateCost(yard: Yard, frame: Frame): number {
  const changes = yard.spaces.flatMap((space) => space.changes);
  return changesCost(
    changes.map(({ from, to, costPerDay }) => ({
      from: frame.minuteOf(from),
      to: frame.minuteOf(to),
      costPerDay,
    })),
    frame.horizon,
  );
}
