import type { Calendar, Interval } from '../../../model/problem.ts';

/**
 * Sorted, disjoint, not touching spans of minutes with constant-time look-up: `bucket[b]`
 * is the first span that ends after minute b * 128, so a look-up walks past few spans.
 * `before[i]` is the number of minutes in the spans before span i.
 */
export interface Spans {
  readonly count: number;
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  readonly before: Int32Array;
  readonly bucket: Int32Array;
}

const BUCKET_BITS = 7;

/** Indexes spans given as a flat list of start, end pairs; touching pairs are joined. */
export function spansOf(flat: readonly number[], horizon: number): Spans {
  const joined: number[] = [];
  for (let i = 0; i < flat.length; i += 2) {
    if (flat[i] >= flat[i + 1]) continue;
    if (joined.length > 0 && joined[joined.length - 1] >= flat[i]) {
      joined[joined.length - 1] = Math.max(joined[joined.length - 1], flat[i + 1]);
    } else joined.push(flat[i], flat[i + 1]);
  }
  const count = joined.length / 2;
  const starts = new Int32Array(count);
  const ends = new Int32Array(count);
  const before = new Int32Array(count + 1);
  for (let i = 0; i < count; i += 1) {
    starts[i] = joined[2 * i];
    ends[i] = joined[2 * i + 1];
    before[i + 1] = before[i] + ends[i] - starts[i];
  }
  const bucket = new Int32Array((Math.max(0, horizon) >> BUCKET_BITS) + 2);
  let at = 0;
  for (let b = 0; b < bucket.length; b += 1) {
    while (at < count && ends[at] <= b << BUCKET_BITS) at += 1;
    bucket[b] = at;
  }
  return { count, starts, ends, before, bucket };
}

/** Index of the first span that ends after `t`; `count` if none. */
export function spanAfter(spans: Spans, t: number): number {
  const b = t <= 0 ? 0 : t >> BUCKET_BITS;
  let i = b < spans.bucket.length ? spans.bucket[b] : spans.count;
  while (i < spans.count && spans.ends[i] <= t) i += 1;
  return i;
}

/** The first minute at or after `t` inside a span, -1 if none. */
export function nextInside(spans: Spans, t: number): number {
  const i = spanAfter(spans, t);
  if (i >= spans.count) return -1;
  return spans.starts[i] > t ? spans.starts[i] : t;
}

/** Minutes inside spans before `t`. */
export function minutesBefore(spans: Spans, t: number): number {
  const i = spanAfter(spans, t);
  if (i >= spans.count) return spans.before[spans.count];
  return spans.before[i] + Math.max(0, t - spans.starts[i]);
}

/** Whether any minute in [a, b) is inside. */
export function meets(spans: Spans, a: number, b: number): boolean {
  const i = spanAfter(spans, a);
  return i < spans.count && spans.starts[i] < b;
}

/** Minutes inside spans in [a, b). */
export function minutesBetween(spans: Spans, a: number, b: number): number {
  let total = 0;
  for (let i = spanAfter(spans, a); i < spans.count && spans.starts[i] < b; i += 1) {
    total += Math.min(b, spans.ends[i]) - Math.max(a, spans.starts[i]);
  }
  return total;
}

/** The end of `minutes` (>= 1) inside-minutes counted from `start`, which is inside; -1 if they run out. */
export function endOf(spans: Spans, start: number, minutes: number): number {
  let left = minutes;
  let from = start;
  for (let i = spanAfter(spans, start); i < spans.count; i += 1) {
    if (spans.starts[i] > from) from = spans.starts[i];
    const end = spans.ends[i];
    if (end - from >= left) return from + left;
    left -= end - from;
  }
  return -1;
}

/** The k-th inside-minute, k from 0; -1 if there are not so many. */
export function minuteAt(spans: Spans, k: number): number {
  if (k >= spans.before[spans.count]) return -1;
  let lo = 0;
  let hi = spans.count - 1;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    if (spans.before[mid] <= k) lo = mid;
    else hi = mid - 1;
  }
  return spans.starts[lo] + k - spans.before[lo];
}

/** The first inside-minute from which `minutes` inside-minutes end no earlier than `finish`; -1 if none. */
export function startEndingFrom(spans: Spans, finish: number, minutes: number): number {
  return minuteAt(spans, Math.max(0, minutesBefore(spans, finish - 1) - minutes + 1));
}

export const flatten = (list: readonly Interval[]): number[] =>
  list.flatMap((s) => [s.start, s.end]);

/** What two sorted flat lists have in common. */
export function intersect(a: readonly number[], b: readonly number[]): number[] {
  const out: number[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const start = Math.max(a[i], b[j]);
    const end = Math.min(a[i + 1], b[j + 1]);
    if (start < end) out.push(start, end);
    if (a[i + 1] < b[j + 1]) i += 2;
    else j += 2;
  }
  return out;
}

/** What is left of `a` without `holes`; both sorted flat lists. */
export function subtract(a: readonly number[], holes: readonly number[]): number[] {
  const out: number[] = [];
  let h = 0;
  for (let i = 0; i < a.length; i += 2) {
    let from = a[i];
    while (h < holes.length && holes[h + 1] <= from) h += 2;
    for (let k = h; k < holes.length && holes[k] < a[i + 1]; k += 2) {
      if (holes[k] > from) out.push(from, holes[k]);
      from = Math.max(from, holes[k + 1]);
    }
    if (from < a[i + 1]) out.push(from, a[i + 1]);
  }
  return out;
}

/** Shifts and working time (shifts less breaks) that all of some calendars share. */
export interface WorkTable {
  readonly shifts: Spans;
  readonly work: Spans;
}

/** Shifts and overtime as one; spans that touch or overlap are joined. */
export function withOvertime(calendar: Calendar): number[] {
  const all = [...calendar.shifts, ...calendar.overtime].sort((a, b) => a.start - b.start);
  const joined: number[] = [];
  for (const { start, end } of all) {
    const last = joined.length - 1;
    if (last > 0 && joined[last] >= start) joined[last] = Math.max(joined[last], end);
    else joined.push(start, end);
  }
  return joined;
}

/**
 * The time that people on `calendars` share within the working time of `hours`, the calendars
 * of resources: those are not relieved, so that their breaks part the shifts.
 */
export function workTable(
  calendars: readonly Calendar[],
  horizon: number,
  hours: readonly Calendar[] = [],
  overtime = false,
): WorkTable {
  let shifts = [0, horizon];
  for (const calendar of hours)
    shifts = intersect(shifts, subtract(flatten(calendar.shifts), flatten(calendar.breaks)));
  let work = shifts;
  for (const calendar of calendars) {
    const own = overtime ? withOvertime(calendar) : flatten(calendar.shifts);
    shifts = intersect(shifts, own);
    work = intersect(work, subtract(own, flatten(calendar.breaks)));
  }
  return { shifts: spansOf(shifts, horizon), work: spansOf(work, horizon) };
}
