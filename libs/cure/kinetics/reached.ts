import { integrate, type Accuracy } from './dormand-prince.ts';
import { stretchAt, type Stretch } from './stretches.ts';

/** Conversion gained per minute at a conversion and a temperature; never negative. */
export type ConversionRate = (conversion: number, celsius: number) => number;

/** Each step of an integration is right to this share of the conversion, unless told otherwise. */
export const TOLERANCE = 1e-9;

/** Below a conversion of this much, an error is measured as a share of this much. */
const FLOOR = 1e-3;

/**
 * Minutes at one temperature from conversion `from` to `to`: the integral of da / rate. Infinity
 * where the rate is 0 at the beginning.
 */
export function minutesAt(
  rate: ConversionRate,
  celsius: number,
  from: number,
  to: number,
  tolerance = TOLERANCE,
): number {
  if (from >= to) return 0;
  const middle = (to - from) / rate((from + to) / 2, celsius);
  if (!(rate(from, celsius) > 0) || !Number.isFinite(middle)) return Infinity;
  const slowness = (a: number) => 1 / rate(a, celsius);
  return integrate(slowness, { x: from, y: 0 }, to, { tolerance, floor: middle }).y;
}

/**
 * The minute (real) at which a film laid at `laid` with conversion `initial` comes to `reached`;
 * Infinity if it never does. Non-decreasing in `laid` up to the tolerance, since solutions of one
 * equation of first order do not cross.
 */
export function whenReached(
  rate: ConversionRate,
  span: { readonly initial: number; readonly reached: number },
  stretches: readonly Stretch[],
  laid: number,
  tolerance = TOLERANCE,
): number {
  const accuracy: Accuracy = { tolerance, floor: FLOOR };
  let at = { x: laid, y: span.initial };
  for (let k = stretchAt(stretches, laid); k < stretches.length; k++) {
    const { from, celsius, slope, stalls } = stretches[k];
    if (at.y >= span.reached) break;
    if (k === stretches.length - 1) {
      return stalls ? Infinity : at.x + minutesAt(rate, celsius, at.y, span.reached, tolerance);
    }
    const until = stretches[k + 1].from;
    const along = (t: number, a: number): number =>
      rate(a, slope === 0 ? celsius : celsius + slope * (t - from));
    at = stalls ? { x: until, y: at.y } : integrate(along, at, until, accuracy, span.reached);
  }
  return at.x;
}
