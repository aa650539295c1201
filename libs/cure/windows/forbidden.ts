import { latestStart, cureClock } from '../clock/cure-clock.ts';
import type { Span, TemperatureSeries } from '../clock/series.ts';
import type { CureMaterial, Milestone } from '../material/material.ts';

/** The stretches of a history whose temperature meets the condition; the last value holds for ever. */
function stretches(series: TemperatureSeries, meets: (celsius: number) => boolean): Span[] {
  const out: Span[] = [];
  const n = series.celsius.length;
  let from: number | null = null;
  for (let k = 0; k < n; k++) {
    const at = k === 0 ? -Infinity : series.start + k * series.step;
    const is = meets(series.celsius[k]);
    if (is) from ??= at;
    else if (from !== null) {
      out.push({ start: from, end: at });
      from = null;
    }
  }
  if (from !== null) out.push({ start: from, end: Infinity });
  return out;
}

/**
 * Starts that a material forbids to work of `workMinutes`, in 0..horizon, sorted and disjoint:
 * - work that would meet more than the material's maximum temperature;
 * - for one that spoils, work whose film would meet less than the minimum, from its first
 *   minute until the last of it has reached the milestone `safe` (throws `yard.reference`
 *   if the material has no times for it).
 */
export function forbiddenStarts(
  material: CureMaterial,
  series: TemperatureSeries,
  safe: Milestone,
  workMinutes: number,
  horizon: number,
): Span[] {
  const found = stretches(series, (c) => c > material.maximumC).map(({ start, end }) => ({
    start: start - Math.max(1, workMinutes) + 1,
    end,
  }));
  if (material.belowMinimum === 'spoils') {
    const clock = cureClock(material, safe, 'open', series);
    for (const cold of stretches(series, (c) => c < material.minimumC)) {
      const lastSafe = cold.start === -Infinity ? null : latestStart(clock, cold.start);
      const start = lastSafe === null ? -Infinity : lastSafe - workMinutes + 1;
      found.push({ start, end: cold.end });
    }
  }
  found.sort((a, b) => a.start - b.start);
  const out: Span[] = [];
  for (const { start, end } of found) {
    const clipped = { start: Math.max(0, start), end: Math.min(horizon + 1, end) };
    if (clipped.start >= clipped.end) continue;
    const last = out.at(-1);
    if (last === undefined || clipped.start > last.end) out.push(clipped);
    else out[out.length - 1] = { start: last.start, end: Math.max(last.end, clipped.end) };
  }
  return out;
}
