import { cureClock, reachedAt } from '../clock/cure-clock.ts';
import type { TemperatureSeries } from '../clock/series.ts';
import type { CureMaterial } from '../material/material.ts';
import { windowFor } from './window.ts';

/**
 * What a new coat gets from the film below it: a `chemical` bond inside the bond window;
 * a `mechanical` one, once it is hard enough to abrade; nothing yet, `too-early`, before
 * the window and between the window and hardness.
 */
export type Bond = 'chemical' | 'mechanical' | 'too-early';

/**
 * The bond at minute `at` of a film laid from `start` to `finish`. Inside the bond window it
 * is chemical even when the film could be sanded: laminating polyester bonds for days after
 * that. Needs bond-opens, bond-closes and sandable (throws `yard.reference`).
 */
export function bondAt(
  material: CureMaterial,
  series: TemperatureSeries,
  start: number,
  finish: number,
  at: number,
): Bond {
  const window = windowFor(material, 'bond-opens', 'bond-closes', series, start, finish);
  const closed = window.closes !== null && at > window.closes;
  if (window.opens !== null && at >= window.opens && !closed) return 'chemical';
  const hard = reachedAt(cureClock(material, 'sandable', 'open', series), finish);
  return hard !== null && at >= hard && closed ? 'mechanical' : 'too-early';
}
