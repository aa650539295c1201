import type { TemperatureSeries } from '../clock/series.ts';
import type { ConversionLaw } from '../material/material.ts';
import type { Rate } from '../material/rate.ts';
import { arrheniusRatio, isSeparable, kamalRate } from './kamal.ts';
import { minutesAt, TOLERANCE, whenReached } from './reached.ts';
import { stretchesOf } from './stretches.ts';

/** The temperature at which a separable law is integrated once for all others. */
const REFERENCE = 25;

/**
 * Minutes at one constant temperature until a law's conversion is reached; Infinity where it never
 * is. `scale` multiplies them. The minimum temperature is the caller's.
 */
export function conversionMinutes(
  law: ConversionLaw,
  celsius: number,
  scale = 1,
  tolerance = TOLERANCE,
): number {
  return scale * minutesAt(kamalRate(law), celsius, law.initial, law.reached, tolerance);
}

/**
 * Where one activation energy governs a law, its share of the way per minute at a temperature,
 * which is a rate as a table gives it: equivalent age is then exact. Null for other laws: no rate
 * of the temperature alone gives their conversion.
 */
export function conversionRate(law: ConversionLaw, minimumC: number, scale = 1): Rate | null {
  if (!isSeparable(law)) return null;
  const perMinute = 1 / conversionMinutes(law, REFERENCE, scale);
  const e = law.k1.a === 0 ? law.k2.e : law.k1.e;
  return (celsius) => (celsius < minimumC ? 0 : perMinute * arrheniusRatio(e, celsius, REFERENCE));
}

/**
 * When a film of an autocatalytic law reaches its conversion: a function of the minute at which it
 * is laid, giving a real minute, Infinity for never. Below `minimumC` the conversion stands still;
 * `scale` multiplies all times. Right to `tolerance`, of the conversion at each step.
 */
export function conversionClock(
  law: ConversionLaw,
  series: TemperatureSeries,
  minimumC: number,
  scale: number,
  tolerance = TOLERANCE,
): (laid: number) => number {
  const stretches = stretchesOf(series, minimumC);
  const kamal = kamalRate(law);
  const rate = (a: number, celsius: number) => kamal(a, celsius) / scale;
  return (laid) => whenReached(rate, law, stretches, laid, tolerance);
}
