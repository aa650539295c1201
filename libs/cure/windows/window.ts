import { cureClock, reachedAt } from '../clock/cure-clock.ts';
import type { TemperatureBand } from '../clock/series.ts';
import type { CureMaterial, Milestone } from '../material/material.ts';

/**
 * When a follow-up may start, both ends allowed; null is never. It is the safe one: from the
 * latest that it may open to the earliest that it may close. `empty`: no moment is safe for
 * the whole film, because it never opens or may have closed by then.
 */
export interface CureWindow {
  readonly opens: number | null;
  readonly closes: number | null;
  readonly empty: boolean;
}

/**
 * The window of a film laid from minute `start` to minute `finish` in an unknown order: it
 * opens for what was laid last and closes for what was laid first. Throws as `cureClock` does.
 */
export function windowFor(
  material: CureMaterial,
  opens: Milestone,
  closes: Milestone,
  band: TemperatureBand,
  start: number,
  finish: number = start,
): CureWindow {
  const from = reachedAt(cureClock(material, opens, 'open', band), finish);
  const to = reachedAt(cureClock(material, closes, 'close', band), start);
  return { opens: from, closes: to, empty: from === null || (to !== null && to < from) };
}
