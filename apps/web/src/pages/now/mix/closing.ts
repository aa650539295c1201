import type { Briefing } from '../now-data.ts';

const minuteMs = 60_000;

/**
 * How the window that a batch is for stands at a moment. `short`: it shuts before the batch would have
 * to be spread anyway. Null: it shuts later, or none presses.
 */
export function closingFor(
  { mix, closes }: Pick<Briefing, 'mix' | 'closes'>,
  now: number,
): 'shut' | 'short' | null {
  if (mix === null || closes === null) return null;
  const left = Date.parse(closes.at) - now;
  if (left <= 0) return 'shut';
  const lasts = mix.useWithinMinutes ?? mix.potLifeMinutes;
  return lasts !== null && left < lasts * minuteMs ? 'short' : null;
}
