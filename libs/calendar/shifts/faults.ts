import { fault, type Fault } from '#kernel/error.ts';

import { dateOf, dayNumber, isLocalDate, isLocalTime, weekdayOfDay } from '../local-date.ts';
import {
  breakStretches,
  shiftsOn,
  stretchOf,
  type PlacedShift,
  type ShiftPaths,
} from './nominal.ts';
import type { Shift, ShiftException, ShiftPattern } from './pattern.ts';

const DAY = 1440;
const NAMES = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const;
/** A Monday, 1970-01-05, from which the weekly pattern is laid out to compare its days. */
const MONDAY = 4;

function timeFaults(shift: Shift, path: string): Fault[] {
  const out: Fault[] = [];
  const check = (time: string, at: string): void => {
    if (isLocalTime(time)) return;
    const cure = 'Write the time as HH:MM, 00:00 to 23:59.';
    out.push(fault('input.field', at, `"${time}" is not a time of day`, { value: time, cure }));
  };
  check(shift.from, `${path}.from`);
  check(shift.to, `${path}.to`);
  shift.breaks.forEach((pause, k) => {
    check(pause.from, `${path}.breaks[${k}].from`);
    check(pause.to, `${path}.breaks[${k}].to`);
  });
  if (out.length > 0) return out;
  const whole = stretchOf(shift);
  breakStretches(shift).forEach((pause, k) => {
    if (pause.end <= whole.end) return;
    const { from, to } = shift.breaks[k];
    const message = `The break ${from}-${to} is not inside the shift ${shift.from}-${shift.to}`;
    const cure = 'Move the break into the shift, or lengthen the shift.';
    out.push(fault('input.field', `${path}.breaks[${k}]`, message, { value: { from, to }, cure }));
  });
  return out;
}

const inWords = (day: string, shift: Shift): string => `${day} ${shift.from}-${shift.to}`;

interface Named extends PlacedShift {
  readonly day: number;
  readonly words: string;
}

/** Overlaps between the shifts of one day, and of it with those that start the day before. */
function overlaps(earlier: readonly Named[], today: readonly Named[]): Fault[] {
  const out: Fault[] = [];
  const compare = (a: Named, b: Named): void => {
    const one = stretchOf(a.shift);
    const two = stretchOf(b.shift);
    const shift = (b.day - a.day) * DAY;
    if (one.start >= two.end + shift || two.start + shift >= one.end) return;
    const value = { from: b.shift.from, to: b.shift.to };
    out.push(fault('yard.shifts-overlap', b.path, `${a.words} and ${b.words} overlap`, { value }));
  };
  today.forEach((b, k) => {
    for (const a of earlier) compare(a, b);
    for (const a of today.slice(0, k)) compare(a, b);
  });
  return out;
}

/**
 * What is wrong with a pattern and its exceptions: times, breaks outside their shift,
 * dates given twice, and shifts that overlap by the wall clock. `paths` say where both
 * stand in the input. Overlaps of exceptions with each other and with the pattern's
 * shifts of the days around them are found too.
 */
export function shiftFaults(
  pattern: ShiftPattern,
  exceptions: readonly ShiftException[],
  paths: ShiftPaths,
): Fault[] {
  const out: Fault[] = [];
  pattern.forEach((shift, k) => {
    const path = `${paths.pattern}[${k}]`;
    if (!Number.isInteger(shift.weekday) || shift.weekday < 1 || shift.weekday > 7) {
      const more = { value: shift.weekday, cure: 'Use 1 for Monday to 7 for Sunday.' };
      out.push(fault('input.field', `${path}.weekday`, `${shift.weekday} is no weekday`, more));
    }
    out.push(...timeFaults(shift, path));
  });
  const byDay = new Map<number, { index: number; exception: ShiftException }>();
  exceptions.forEach((exception, index) => {
    const path = `${paths.exceptions}[${index}]`;
    const { date } = exception;
    if (!isLocalDate(date)) {
      const more = { value: date, cure: 'Write the date as YYYY-MM-DD, a day that exists.' };
      out.push(fault('input.field', `${path}.date`, `"${date}" is not a date`, more));
    } else if (byDay.has(dayNumber(date))) {
      const more = { value: date, cure: 'Keep one exception for the date.' };
      out.push(fault('yard.duplicate', `${path}.date`, `${date} has two exceptions`, more));
    } else byDay.set(dayNumber(date), { index, exception });
    exception.shifts.forEach((shift, k) => out.push(...timeFaults(shift, `${path}.shifts[${k}]`)));
  });
  if (out.length > 0) return out;

  const none: typeof byDay = new Map();
  const weekly = (day: number): Named[] =>
    shiftsOn(day, pattern, none, paths).map((placed) => ({
      ...placed,
      day,
      words: inWords(NAMES[weekdayOfDay(day) - 1], placed.shift),
    }));
  for (let day = MONDAY; day < MONDAY + 7; day++)
    out.push(...overlaps(weekly(day - 1), weekly(day)));

  const dated = (day: number): Named[] =>
    shiftsOn(day, pattern, byDay, paths).map((placed) => ({
      ...placed,
      day,
      words: inWords(dateOf(day), placed.shift),
    }));
  for (const day of byDay.keys()) {
    out.push(...overlaps(dated(day - 1), dated(day)));
    if (!byDay.has(day + 1)) {
      const next = dated(day + 1);
      for (const b of next) out.push(...overlaps(dated(day), [b]));
    }
  }
  return out;
}
