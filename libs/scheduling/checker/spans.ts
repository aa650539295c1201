import type { Calendar, Interval } from '../model/problem.ts';

/** The parts of `spans` within [start, end). `spans` sorted and disjoint. */
export const clip = (spans: readonly Interval[], start: number, end: number): Interval[] =>
  spans
    .filter((span) => span.start < end && span.end > start)
    .map((span) => ({ start: Math.max(span.start, start), end: Math.min(span.end, end) }));

/** The time in both lists; both sorted and disjoint. */
export const common = (a: readonly Interval[], b: readonly Interval[]): Interval[] =>
  a.flatMap((span) => clip(b, span.start, span.end));

/** The shifts less the breaks. */
export function workingTime(calendar: Calendar): Interval[] {
  return calendar.shifts.flatMap((shift) => {
    const spans: Interval[] = [];
    let from = shift.start;
    for (const pause of clip(calendar.breaks, shift.start, shift.end)) {
      if (pause.start > from) spans.push({ start: from, end: pause.start });
      from = pause.end;
    }
    if (shift.end > from) spans.push({ start: from, end: shift.end });
    return spans;
  });
}

/** Whether one of `spans` holds all of [start, end). */
export const within = (spans: readonly Interval[], start: number, end: number): boolean =>
  spans.some((span) => span.start <= start && end <= span.end);

export const meets = (a: Interval, b: Interval): boolean => a.start < b.end && b.start < a.end;

export const length = (spans: readonly Interval[]): number =>
  spans.reduce((sum, span) => sum + span.end - span.start, 0);

export const written = (spans: readonly Interval[]): string =>
  spans.length === 0 ? 'nothing' : spans.map((span) => `${span.start}-${span.end}`).join(', ');
