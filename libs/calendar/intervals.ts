/**
 * Sets of minutes as sorted, disjoint, non-touching half-open intervals [start, end).
 * Every function but `normalise` expects such sets and returns one; minutes are integers.
 */
export interface Interval {
  readonly start: number;
  readonly end: number;
}

export type IntervalSet = readonly Interval[];

/** The set covered by any intervals, in any order; empty and inverted ones count for nothing. */
export function normalise(intervals: readonly Interval[]): Interval[] {
  const sorted = intervals.filter((i) => i.start < i.end).sort((a, b) => a.start - b.start);
  const out: Interval[] = [];
  for (const next of sorted) {
    const last = out.at(-1);
    if (last !== undefined && next.start <= last.end) {
      out[out.length - 1] = { start: last.start, end: Math.max(last.end, next.end) };
    } else out.push({ start: next.start, end: next.end });
  }
  return out;
}

export const union = (a: IntervalSet, b: IntervalSet): Interval[] => normalise([...a, ...b]);

export function intersect(a: IntervalSet, b: IntervalSet): Interval[] {
  const out: Interval[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const start = Math.max(a[i].start, b[j].start);
    const end = Math.min(a[i].end, b[j].end);
    if (start < end) out.push({ start, end });
    if (a[i].end < b[j].end) i++;
    else j++;
  }
  return out;
}

/** What is in `a` and not in `b`. */
export function subtract(a: IntervalSet, b: IntervalSet): Interval[] {
  const out: Interval[] = [];
  let j = 0;
  for (const whole of a) {
    let from = whole.start;
    while (j < b.length && b[j].end <= from) j++;
    for (let k = j; k < b.length && b[k].start < whole.end; k++) {
      if (from < b[k].start) out.push({ start: from, end: b[k].start });
      from = Math.max(from, b[k].end);
    }
    if (from < whole.end) out.push({ start: from, end: whole.end });
  }
  return out;
}

/** Index of the last interval that starts at or before the minute, or -1. */
function lastStarting(set: IntervalSet, minute: number): number {
  let low = 0;
  let high = set.length;
  while (low < high) {
    const mid = (low + high) >>> 1;
    if (set[mid].start <= minute) low = mid + 1;
    else high = mid;
  }
  return low - 1;
}

/** Whether the minute that begins at `minute` is in the set. O(log n). */
export function contains(set: IntervalSet, minute: number): boolean {
  const k = lastStarting(set, minute);
  return k >= 0 && minute < set[k].end;
}

/** Whether the whole interval is in the set. O(log n). */
export function covers(set: IntervalSet, interval: Interval): boolean {
  if (interval.start >= interval.end) return true;
  const k = lastStarting(set, interval.start);
  return k >= 0 && interval.end <= set[k].end;
}

/** How many minutes are in the set. */
export const measure = (set: IntervalSet): number =>
  set.reduce((sum, i) => sum + i.end - i.start, 0);
