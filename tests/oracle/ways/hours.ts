import type { Calendar, Interval } from '#scheduling/model/problem.ts';

/** What a calendar says of one minute. */
export interface Minute {
  /** Which shift it lies in, -1 outside. */
  readonly shift: number;
  readonly working: boolean;
}

const inside = (minute: number, { start, end }: Interval): boolean =>
  start <= minute && minute < end;

/** The minutes 0 to `horizon` - 1 of a calendar; with overtime, spans that touch are one shift. */
export function minutesOf(calendar: Calendar, overtime: boolean, horizon: number): Minute[] {
  const spans = [...calendar.shifts, ...(overtime ? calendar.overtime : [])].sort(
    (a, b) => a.start - b.start,
  );
  let shift = -1;
  let end = -1;
  const shiftOf = spans.map((span) => {
    if (span.start !== end) shift += 1;
    end = span.end;
    return shift;
  });
  return Array.from({ length: horizon }, (_, minute) => {
    const k = spans.findIndex((span) => inside(minute, span));
    const pausing = calendar.breaks.some((span) => inside(minute, span));
    return { shift: k < 0 ? -1 : shiftOf[k], working: k >= 0 && !pausing };
  });
}
