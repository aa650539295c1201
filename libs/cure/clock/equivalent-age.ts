import { DomainError } from '#kernel/error.ts';

import type { Rate } from '../material/rate.ts';
import type { TemperatureSeries } from './series.ts';

/**
 * The running integral of a rate over a temperature history. Steps have one temperature
 * each, so the integral is piecewise linear and both directions are exact up to rounding:
 * O(1) to read it at a minute, O(log steps) to find when it reaches an age, of the steps to there.
 * Every value is non-decreasing in its argument in floating point as well.
 */
export interface EquivalentAge {
  readonly start: number;
  readonly step: number;
  /** Rate in each step; the first and the last also hold outside. */
  readonly rates: Float64Array;
  /** Age at the beginning of each step and at the end of the last; 0 at `start`. */
  readonly ages: Float64Array;
}

/** Throws `input.field` for a history without a single value. */
export function equivalentAge(rate: Rate, series: TemperatureSeries): EquivalentAge {
  const n = series.celsius.length;
  if (n === 0) throw new DomainError('input.field', 'A temperature history has no values');
  const rates = new Float64Array(n);
  const ages = new Float64Array(n + 1);
  for (let k = 0; k < n; k++) {
    // Histories hold long runs of one temperature, and the rate costs an exponential.
    const same = k > 0 && series.celsius[k] === series.celsius[k - 1];
    rates[k] = same ? rates[k - 1] : rate(series.celsius[k]);
    ages[k + 1] = ages[k] + series.step * rates[k];
  }
  return { start: series.start, step: series.step, rates, ages };
}

/** Age gathered from the start of the history to a minute (negative before it). */
export function ageAt(age: EquivalentAge, minute: number): number {
  const { start, step, rates, ages } = age;
  const n = rates.length;
  const passed = minute - start;
  if (passed < 0) return passed * rates[0];
  const k = Math.floor(passed / step);
  if (k >= n) return ages[n] + (passed - n * step) * rates[n - 1];
  return ages[k] + (passed - k * step) * rates[k];
}

/**
 * The first minute (real) at which the age is reached; Infinity if it never is. An age that
 * was there before the history began, in a stall without beginning, is dated to its start.
 * `from`: a step whose beginning is younger than that, to look on from; 0 always will do.
 */
export function firstMinuteAt(age: EquivalentAge, wanted: number, from = 0): number {
  const { start, step, rates, ages } = age;
  const n = rates.length;
  if (wanted <= 0) return rates[0] > 0 ? start + wanted / rates[0] : start;
  if (wanted > ages[n]) {
    return rates[n - 1] > 0 ? start + n * step + (wanted - ages[n]) / rates[n - 1] : Infinity;
  }
  let low = from;
  let high = Math.min(n, low + 1);
  for (let width = 2; ages[high] < wanted; width *= 2) {
    low = high;
    high = Math.min(n, low + width);
  }
  // Invariant: ages[low] < wanted <= ages[high]; so the step found has a rate above 0.
  while (high - low > 1) {
    const mid = (low + high) >>> 1;
    if (ages[mid] < wanted) low = mid;
    else high = mid;
  }
  return start + low * step + Math.min(step, (wanted - ages[low]) / rates[low]);
}
