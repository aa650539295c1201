import type { Cup } from './mixing.ts';

/** How far a cup has come: it is to be spread, it still can be used, it is past its pot life. */
export interface TimeLeft {
  readonly stage: 'spread' | 'late' | 'over';
  /** Until the stage ends; null: it does not. */
  readonly ms: number | null;
  /** When the stage ends, ms since the epoch. */
  readonly at: number | null;
}

const minuteMs = 60_000;

/** What a cup that was mixed leaves of time at a moment; null: nothing is known of its pot life. */
export function timeLeft(
  { mixedAt, useWithin, potLife }: Pick<Cup, 'mixedAt' | 'useWithin' | 'potLife'>,
  now: number,
): TimeLeft | null {
  if (mixedAt === null) return null;
  const from = Date.parse(mixedAt);
  const gels = potLife === null ? null : from + potLife * minuteMs;
  const spread = useWithin === null ? gels : from + useWithin * minuteMs;
  if (spread === null) return null;
  if (now < spread) return { stage: 'spread', ms: spread - now, at: spread };
  if (gels !== null && now < gels) return { stage: 'late', ms: gels - now, at: gels };
  return { stage: 'over', ms: null, at: null };
}
