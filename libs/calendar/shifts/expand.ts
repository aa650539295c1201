import { DomainError } from '#kernel/error.ts';

import { intersect, normalise, type Interval } from '../intervals.ts';
import { dayNumber } from '../local-date.ts';
import { instantAt, instantOf, wallAt } from '../local-time.ts';
import type { Zone } from '../zone.ts';
import { shiftFaults } from './faults.ts';
import { breakStretches, shiftsOn, stretchOf, type ShiftPaths, type Stretch } from './nominal.ts';
import type { ShiftException, ShiftPattern } from './pattern.ts';

/** Working time of one person in minutes from a plan's origin; `breaks` lie inside `shifts`. */
export interface WorkingTime {
  readonly shifts: Interval[];
  readonly breaks: Interval[];
}

const HERE: ShiftPaths = { pattern: 'pattern', exceptions: 'exceptions' };

/**
 * The shifts and breaks of a pattern from an instant (ISO, UTC) over so many minutes, as
 * minutes from that instant, sorted and disjoint; shifts that touch are one. Wall times
 * become instants one by one, so a night shift over a clock change is shorter or longer
 * than the wall says, and one that lies in skipped time moves forward (`instantAt`) or,
 * if that leaves nothing of it, falls out. Throws the faults of `shiftFaults`.
 */
export function expandShifts(
  pattern: ShiftPattern,
  exceptions: readonly ShiftException[],
  zone: Zone,
  from: string,
  horizonMinutes: number,
): WorkingTime {
  const faults = shiftFaults(pattern, exceptions, HERE);
  if (faults.length > 0) throw new DomainError(faults[0].code, faults[0].message, { faults });

  const origin = instantOf(from);
  const byDay = new Map(
    exceptions.map((exception, index) => [dayNumber(exception.date), { index, exception }]),
  );
  const shifts: Interval[] = [];
  const breaks: Interval[] = [];
  const place = (day: number, stretch: Stretch): Interval => ({
    start: instantAt(day, stretch.start, zone) - origin,
    end: instantAt(day, stretch.end, zone) - origin,
  });
  // A day early, for a night shift that reaches over the origin.
  const last = wallAt(origin + horizonMinutes, zone).day;
  for (let day = wallAt(origin, zone).day - 1; day <= last; day++) {
    for (const { shift } of shiftsOn(day, pattern, byDay, HERE)) {
      shifts.push(place(day, stretchOf(shift)));
      breaks.push(...breakStretches(shift).map((stretch) => place(day, stretch)));
    }
  }
  const whole = [{ start: 0, end: horizonMinutes }];
  const worked = intersect(normalise(shifts), whole);
  return { shifts: worked, breaks: intersect(normalise(breaks), worked) };
}
