import type { Interval } from '../model/problem.ts';

/** The parts of `spans` within [start, end). `spans` sorted and disjoint. */
export const clip = (spans: readonly Interval[], start: number, end: number): Interval[] =>
  spans
    .filter((span) => span.start < end && span.end > start)
    .map((span) => ({ start: Math.max(span.start, start), end: Math.min(span.end, end) }));

/** The time in both lists; both sorted and disjoint. */
export const common = (a: readonly Interval[], b: readonly Interval[]): Interval[] =>
  a.flatMap((span) => clip(b, span.start, span.end));

/** The time of `spans` that is in none of `holes`; both sorted and disjoint. */
export function minus(spans: readonly Interval[], holes: readonly Interval[]): Interval[] {
  return spans.flatMap((span) => {
    const left: Interval[] = [];
    let from = span.start;
    for (const hole of clip(holes, span.start, span.end)) {
      if (hole.start > from) left.push({ start: from, end: hole.start });
      from = hole.end;
    }
    if (span.end > from) left.push({ start: from, end: span.end });
    return left;
  });
}

/** Sorted, those that touch or overlap as one. */
export function merged(spans: readonly Interval[]): Interval[] {
  const all: Interval[] = [];
  for (const { start, end } of spans.toSorted((a, b) => a.start - b.start)) {
    const last = all.at(-1);
    if (last && start <= last.end)
      all[all.length - 1] = { start: last.start, end: Math.max(last.end, end) };
    else all.push({ start, end });
  }
  return all;
}

/** Whether one of `spans` holds all of [start, end). */
export const within = (spans: readonly Interval[], start: number, end: number): boolean =>
  spans.some((span) => span.start <= start && end <= span.end);

export const meets = (a: Interval, b: Interval): boolean => a.start < b.end && b.start < a.end;

export const length = (spans: readonly Interval[]): number =>
  spans.reduce((sum, span) => sum + span.end - span.start, 0);

export const written = (spans: readonly Interval[]): string =>
  spans.length === 0 ? 'nothing' : spans.map((span) => `${span.start}-${span.end}`).join(', ');
