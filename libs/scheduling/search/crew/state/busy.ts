/**
 * Disjoint spans in which somebody is busy, in order of time. Spans that touch are kept
 * apart, so that taking one back is exact.
 */
export interface BusyList {
  count: number;
  starts: Int32Array;
  ends: Int32Array;
}

export const busyList = (): BusyList => ({
  count: 0,
  starts: new Int32Array(64),
  ends: new Int32Array(64),
});

const grown = (from: Int32Array): Int32Array => {
  const to = new Int32Array(from.length * 2);
  to.set(from);
  return to;
};

/** Index of the first span that ends after `t`. */
export function busyAfter(list: BusyList, t: number): number {
  const { ends } = list;
  let lo = 0;
  let hi = list.count;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (ends[mid] > t) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}

export function addBusy(list: BusyList, start: number, end: number): void {
  if (list.count === list.starts.length) {
    list.starts = grown(list.starts);
    list.ends = grown(list.ends);
  }
  const { starts, ends } = list;
  let i = list.count;
  while (i > 0 && starts[i - 1] > start) {
    starts[i] = starts[i - 1];
    ends[i] = ends[i - 1];
    i -= 1;
  }
  starts[i] = start;
  ends[i] = end;
  list.count += 1;
}

/** Takes back a span that was added. */
export function removeBusy(list: BusyList, start: number): void {
  const { starts, ends } = list;
  let i = busyAfter(list, start);
  while (starts[i] !== start) i += 1;
  starts.copyWithin(i, i + 1, list.count);
  ends.copyWithin(i, i + 1, list.count);
  list.count -= 1;
}

export function copyBusy(from: BusyList, to: BusyList): void {
  if (to.starts.length < from.count) {
    to.starts = new Int32Array(from.starts.length);
    to.ends = new Int32Array(from.starts.length);
  }
  for (let i = 0; i < from.count; i += 1) {
    to.starts[i] = from.starts[i];
    to.ends[i] = from.ends[i];
  }
  to.count = from.count;
}
