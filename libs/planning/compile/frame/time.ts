import { instantOf, isoOf } from '#calendar/local-time.ts';
import type { Yard } from '../../yard/yard.ts';

/** The plan's frame: minutes count from `origin` up to `horizon`; nothing new begins before `now`. */
export interface Frame {
  /** UTC ISO instant of minute 0. */
  readonly origin: string;
  readonly horizon: number;
  /** Minutes, at least 0. */
  readonly now: number;
  readonly timeZone: string;
  /** Minutes from the origin to an instant; seconds are cut off. */
  minuteOf(iso: string): number;
  isoAt(minute: number): string;
}

const DAY = 1440;

export function frameOf(yard: Yard, from: string | undefined, now: string | undefined): Frame {
  const instant = (iso: string): number => {
    const ms = Date.parse(iso);
    return Number.isNaN(ms) ? instantOf(iso) : Math.floor(ms / 60_000); // instantOf refuses it in words
  };
  const origin = instant(from ?? yard.planFrom);
  const minuteOf = (iso: string): number => instant(iso) - origin;
  return {
    origin: isoOf(origin),
    horizon: yard.horizonDays * DAY,
    now: now === undefined ? 0 : Math.max(0, minuteOf(now)),
    timeZone: yard.timeZone,
    minuteOf,
    isoAt: (minute) => isoOf(origin + minute),
  };
}
