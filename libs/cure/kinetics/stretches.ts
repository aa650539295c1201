import { DomainError } from '#kernel/error.ts';

import type { TemperatureSeries } from '../clock/series.ts';

/** From `from` until the next stretch, `celsius + slope * (t - from)`; or a stall: no cure at all. */
export interface Stretch {
  readonly from: number;
  readonly celsius: number;
  readonly slope: number;
  readonly stalls: boolean;
}

/**
 * A history as the fewest stretches in each of which the temperature is one straight line, and
 * either everywhere at the minimum or above, or everywhere below it. The first has no beginning
 * and the last no end. Throws `input.field` for a history without a single value.
 */
export function stretchesOf(series: TemperatureSeries, minimumC: number): Stretch[] {
  const { shape, start, step, celsius } = series;
  const n = celsius.length;
  if (n === 0) throw new DomainError('input.field', 'A temperature history has no values');
  const list: Stretch[] = [];
  const add = (from: number, c: number, slope: number, stalls: boolean): void => {
    const before = list.at(-1);
    const same = before?.stalls === stalls && (stalls || (slope === 0 && before.slope === 0));
    if (!same || (!stalls && before.celsius !== c)) list.push({ from, celsius: c, slope, stalls });
  };
  add(-Infinity, celsius[0], 0, celsius[0] < minimumC);
  for (let k = 0; k + 1 < n; k++) {
    const from = start + k * step;
    const [c, next] = [celsius[k], shape === 'steps' ? celsius[k] : celsius[k + 1]];
    const slope = (next - c) / step;
    add(from, c, slope, c < minimumC || (c === minimumC && next < minimumC));
    if (c < minimumC === next < minimumC || c === minimumC) continue;
    add(from + (minimumC - c) / slope, minimumC, slope, next < minimumC);
  }
  add(start + (n - 1) * step, celsius[n - 1], 0, celsius[n - 1] < minimumC);
  return list;
}

/** The index of the stretch that holds a minute. */
export function stretchAt(list: readonly Stretch[], minute: number): number {
  let low = 0;
  let high = list.length;
  while (high - low > 1) {
    const mid = (low + high) >>> 1;
    if (list[mid].from <= minute) low = mid;
    else high = mid;
  }
  return low;
}
