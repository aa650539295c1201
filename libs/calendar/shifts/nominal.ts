import { minuteOfDay, weekdayOfDay } from '../local-date.ts';
import type { Shift, ShiftException, ShiftPattern } from './pattern.ts';

const DAY = 1440;

/** A stretch in wall minutes after the midnight its shift's day begins with; `end` may pass 1440. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

export function stretchOf(shift: Shift): Stretch {
  const start = minuteOfDay(shift.from);
  const end = minuteOfDay(shift.to);
  return { start, end: end <= start ? end + DAY : end };
}

/** The breaks of a shift, placed on its own day or the next as the shift has them. */
export function breakStretches(shift: Shift): Stretch[] {
  const { start } = stretchOf(shift);
  return shift.breaks.map((pause) => {
    const from = minuteOfDay(pause.from);
    const to = minuteOfDay(pause.to);
    const placed = from < start ? from + DAY : from;
    const length = to <= from ? to + DAY - from : to - from;
    return { start: placed, end: placed + length };
  });
}

/** A shift and where in the input it stands. */
export interface PlacedShift {
  readonly shift: Shift;
  readonly path: string;
}

export interface ShiftPaths {
  readonly pattern: string;
  readonly exceptions: string;
}

/** The shifts that start on a day (number since 1970-01-01): the exception's if it has one. */
export function shiftsOn(
  day: number,
  pattern: ShiftPattern,
  exceptions: ReadonlyMap<number, { index: number; exception: ShiftException }>,
  paths: ShiftPaths,
): PlacedShift[] {
  const found = exceptions.get(day);
  if (found !== undefined) {
    return found.exception.shifts.map((shift, k) => ({
      shift,
      path: `${paths.exceptions}[${found.index}].shifts[${k}]`,
    }));
  }
  const weekday = weekdayOfDay(day);
  return pattern.flatMap((shift, k) =>
    shift.weekday === weekday ? [{ shift, path: `${paths.pattern}[${k}]` }] : [],
  );
}
