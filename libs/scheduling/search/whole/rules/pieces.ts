/**
 * Where work done in one certain way may be: piece k allows every start in [low, high], with
 * the finish `offset` later. Ascending and disjoint; later starts finish later.
 */
export interface Pieces {
  readonly low: Int32Array;
  readonly high: Int32Array;
  readonly offset: Int32Array;
}

/** A start with its finish. */
export interface Point {
  s: number;
  e: number;
}

/** The earliest point with a start and finish no earlier than these; false if there is none. */
export function pointFrom(
  { low, high, offset }: Pieces,
  s: number,
  e: number,
  out: Point,
): boolean {
  let left = 0;
  let right = low.length;
  while (left < right) {
    const k = (left + right) >> 1;
    if (high[k] < s || high[k] + offset[k] < e) left = k + 1;
    else right = k;
  }
  if (left === low.length) return false;
  out.s = Math.max(low[left], s, e - offset[left]);
  out.e = out.s + offset[left];
  return true;
}

/** The latest point with a start and finish no later than these; false if there is none. */
export function pointTo({ low, high, offset }: Pieces, s: number, e: number, out: Point): boolean {
  let left = 0;
  let right = low.length;
  while (left < right) {
    const k = (left + right) >> 1;
    if (low[k] > s || low[k] + offset[k] > e) right = k;
    else left = k + 1;
  }
  if (left === 0) return false;
  out.s = Math.min(high[left - 1], s, e - offset[left - 1]);
  out.e = out.s + offset[left - 1];
  return true;
}
