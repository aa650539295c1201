import type { Span, TemperatureSeries } from '../clock/series.ts';

/** Rounding of a crossing stays far below that many minutes; a moment so near a whole minute is that minute. */
const SLACK = 1e-6;

/**
 * The stretches of a series (temperatures, or whatever else is on such a grid) that lie below
 * or above a limit, in real minutes, sorted; what is just on the limit does not count. Lines
 * are cut where they cross it; the first value has no beginning and the last no end.
 */
export function stretches(
  { shape, start, step, celsius }: TemperatureSeries,
  limit: number,
  side: 'below' | 'above',
): Span[] {
  const sign = side === 'below' ? 1 : -1;
  const short = (k: number): number => sign * (limit - celsius[k]);
  const out: Span[] = [];
  let from: number | null = short(0) > 0 ? -Infinity : null;
  for (let k = 1; k < celsius.length; k++) {
    const before = short(k - 1);
    const now = short(k);
    if (before > 0 === now > 0) continue;
    const share = shape === 'steps' ? 1 : before / (before - now);
    const at = start + (k - 1 + share) * step;
    if (from === null) from = at;
    else {
      out.push({ start: from, end: at });
      from = null;
    }
  }
  if (from !== null) out.push({ start: from, end: Infinity });
  return out;
}

/**
 * The whole minutes s at which something would begin that, in [s, s + minutes), meets the
 * inside of a stretch.
 */
export const meeting = ({ start, end }: Span, minutes: number): Span => ({
  start: firstAfter(start) - minutes,
  end: Math.ceil(end - SLACK),
});

/** The last whole minute that is not after a moment. */
export const lastBy = (moment: number): number => Math.floor(moment + SLACK);

/** The first whole minute after a moment. */
const firstAfter = (moment: number): number => lastBy(moment) + 1;

/** Spans of 0..horizon, sorted, disjoint and not touching. */
export function clipped(spans: readonly Span[], horizon: number): Span[] {
  const out: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.start - b.start)) {
    const start = Math.max(0, span.start);
    const end = Math.min(horizon + 1, span.end);
    if (start >= end) continue;
    const last = out.at(-1);
    if (last === undefined || start > last.end) out.push({ start, end });
    else out[out.length - 1] = { start: last.start, end: Math.max(last.end, end) };
  }
  return out;
}
