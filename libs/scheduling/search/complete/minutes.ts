import type { Calendar, Interval } from '../../model/problem.ts';

/** By minute from 0 to the horizon, whether it is open (1). */
export type Minutes = Uint8Array<ArrayBuffer>;

const paint = (minutes: Minutes, spans: readonly Interval[], value: number): void => {
  for (const { start, end } of spans)
    minutes.fill(value, Math.max(0, start), Math.max(0, Math.min(end, minutes.length - 1)));
};

/** The minutes of a calendar's shifts, with overtime if it counts, and less the breaks if they do. */
export function open(
  calendar: Calendar,
  horizon: number,
  overtime: boolean,
  breaks: boolean,
): Minutes {
  const minutes = new Uint8Array(horizon + 1);
  paint(minutes, calendar.shifts, 1);
  if (overtime) paint(minutes, calendar.overtime, 1);
  if (breaks) paint(minutes, calendar.breaks, 0);
  return minutes;
}

/** What is open in all of them; null for none of them: always. */
export function common(all: readonly Minutes[]): Minutes | null {
  if (all.length === 0) return null;
  const both = all[0].slice();
  for (const one of all.slice(1)) for (let t = 0; t < both.length; t += 1) both[t] &= one[t];
  return both;
}

/** By minute, the end of the open span that it is in, or the minute itself. */
export function runEnds(minutes: Minutes): Int32Array {
  const ends = new Int32Array(minutes.length);
  for (let t = minutes.length - 1; t >= 0; t -= 1)
    ends[t] = minutes[t] === 1 && t + 1 < minutes.length ? Math.max(t + 1, ends[t + 1]) : t;
  return ends;
}

/** Work of so many open minutes from `start`, which is open; null where they run out. */
export function split(minutes: Minutes, start: number, count: number): Interval[] | null {
  const segments: Interval[] = [];
  let left = count;
  let from = start;
  for (let t = start; left > 0; t += 1) {
    if (t >= minutes.length || minutes[t] === 0) {
      if (t > from) segments.push({ start: from, end: t });
      if (t >= minutes.length) return null;
      from = t + 1;
    } else {
      left -= 1;
      if (left === 0) segments.push({ start: from, end: t + 1 });
    }
  }
  return segments;
}
