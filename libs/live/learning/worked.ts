import {
  type Interval,
  intersect,
  type IntervalSet,
  measure,
  subtract,
} from '#calendar/intervals.ts';
import { expandShifts } from '#calendar/shifts/expand.ts';
import { isoOf } from '#calendar/local-time.ts';
import type { Person } from '#planning/yard/people.ts';

/** When somebody is expected at work, in epoch minutes. */
export interface Presence {
  readonly shifts: IntervalSet;
  readonly breaks: IntervalSet;
}

/** Of one person over a span of epoch minutes. */
export function presenceOf(
  { shifts, exceptions }: Pick<Person, 'shifts' | 'exceptions'>,
  zone: string,
  { start, end }: Interval,
): Presence {
  const time = expandShifts(shifts, exceptions, zone, isoOf(start), Math.max(1, end - start));
  const moved = (set: IntervalSet): Interval[] =>
    set.map((one) => ({ start: one.start + start, end: one.end + start }));
  return { shifts: moved(time.shifts), breaks: moved(time.breaks) };
}

/**
 * Minutes of a span that somebody was at it. An absence that lies wholly inside, a night, a break
 * that the work observes, was not worked: nobody stops a clock for lunch. What reaches beyond a
 * shift at either end of the span was: they came earlier, or stayed.
 */
export function workedMinutes(
  span: Interval,
  { shifts, breaks }: Presence,
  observesBreaks: boolean,
): number {
  const whole = [span];
  const away = [
    ...subtract(whole, shifts),
    ...(observesBreaks ? intersect(whole, breaks) : []),
  ].filter(({ start, end }) => start > span.start && end < span.end);
  return span.end - span.start - measure(away);
}
