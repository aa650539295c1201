import { cureClock, reachedAt } from '../clock/cure-clock.ts';
import type { TemperatureSeries } from '../clock/series.ts';
import type { CureMaterial, Milestone } from '../material/material.ts';

/**
 * When a follow-up may start, both ends allowed; null is never. `closes` may come before
 * `opens`, and then no moment suits the whole film.
 */
export interface CureWindow {
  readonly opens: number | null;
  readonly closes: number | null;
}

/**
 * The window of a film laid from minute `start` to minute `finish` in an unknown order: it
 * opens for what was laid last and closes for what was laid first.
 */
export function windowFor(
  material: CureMaterial,
  opens: Milestone,
  closes: Milestone,
  series: TemperatureSeries,
  start: number,
  finish: number = start,
): CureWindow {
  return {
    opens: reachedAt(cureClock(material, opens, 'open', series), finish),
    closes: reachedAt(cureClock(material, closes, 'close', series), start),
  };
}
