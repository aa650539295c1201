import { spanAfter, type Spans } from '../../crew/compiled/spans.ts';

/** The last minute of the hours in [from, to); below `from` if there is none. */
export function lastIn(hours: Spans, from: number, to: number): number {
  let last = from - 1;
  for (let i = spanAfter(hours, from); i < hours.count && hours.starts[i] < to; i++)
    last = Math.min(hours.ends[i], to) - 1;
  return last;
}

/** The first minute of the hours from `t` on. */
export function firstIn(hours: Spans, t: number): number {
  const i = spanAfter(hours, t);
  return i < hours.count ? Math.max(t, hours.starts[i]) : 0x3fffffff;
}
