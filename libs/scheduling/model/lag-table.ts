import type { LagTable } from './problem.ts';

/**
 * The last knot at or before minute `t`, which lies before the last knot of all. Looked for from
 * where it would be if knots lay evenly, in doubling steps and then by halves: a table made of
 * days has few knots in between, one of any shape costs O(log knots). Measured a third faster on
 * tables of 140 to 600 knots than an index of buckets beside the table, and twice as fast as halving.
 */
function knotBefore(at: readonly number[], t: number): number {
  const last = at.length - 1;
  let low = Math.floor((t * last) / at[last]);
  let high = low;
  if (at[low] <= t) {
    for (let step = 1; at[high] <= t; step *= 2) {
      low = high;
      high = Math.min(last, high + step);
    }
    high -= 1;
  } else
    for (let step = 1; at[low] > t; step *= 2) {
      high = low - 1;
      low = Math.max(0, low - step);
    }
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (at[middle] <= t) low = middle;
    else high = middle - 1;
  }
  return low;
}

/**
 * The table read as an opening for the anchor `t`: a value between two given ones rounded up.
 * Anchors before minute 0 read minute 0.
 */
export function readUp(table: LagTable, t: number): number {
  const from = t > 0 ? t : 0;
  const { values } = table;
  if ('grid' in table) return values[Math.min(values.length - 1, Math.ceil(from / table.grid))];
  const { at } = table;
  if (from >= at[at.length - 1]) return values[at.length - 1];
  const k = knotBefore(at, from);
  const past = from - at[k];
  // Exact: products are below 2^53 (the validation sees to it), and so no quotient that is not
  // whole is rounded to a whole one.
  return values[k] + Math.ceil((past * (values[k + 1] - values[k])) / (at[k + 1] - at[k]));
}

/** The table read as a closing for the anchor `t`: a value between two given ones rounded down. */
export function readDown(table: LagTable, t: number): number {
  const from = t > 0 ? t : 0;
  const { values } = table;
  if ('grid' in table) return values[Math.min(values.length - 1, Math.floor(from / table.grid))];
  const { at } = table;
  if (from >= at[at.length - 1]) return values[at.length - 1];
  const k = knotBefore(at, from);
  const past = from - at[k];
  return values[k] + Math.floor((past * (values[k + 1] - values[k])) / (at[k + 1] - at[k]));
}

/** The first index whose value is at least (`strict`: more than) `wanted`; their number if none is. */
function firstAt(values: readonly number[], wanted: number, strict: boolean): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const value = values[middle];
    if (strict ? value > wanted : value >= wanted) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The earliest anchor for which the table read as a closing reaches `to`; Infinity if none does, -Infinity if all do. */
export function firstReaching(table: LagTable, to: number): number {
  const { values } = table;
  const k = firstAt(values, to, false);
  if (k === values.length) return Infinity;
  if (k === 0) return -Infinity;
  if ('grid' in table) return k * table.grid;
  // Rounded down it reaches the whole number `to` where the line does.
  const { at } = table;
  const rise = values[k] - values[k - 1];
  return at[k - 1] + Math.ceil(((to - values[k - 1]) * (at[k] - at[k - 1])) / rise);
}

/** The latest anchor for which the table read as an opening has opened by `to`; -Infinity if none has, Infinity if all have. */
export function lastOpened(table: LagTable, to: number): number {
  const { values } = table;
  const k = firstAt(values, to, true);
  if (k === 0) return -Infinity;
  if (k === values.length) return Infinity;
  if ('grid' in table) return (k - 1) * table.grid;
  // Rounded up it is still at most the whole number `to` where the line is.
  const { at } = table;
  const rise = values[k] - values[k - 1];
  return at[k - 1] + Math.floor(((to - values[k - 1]) * (at[k] - at[k - 1])) / rise);
}
