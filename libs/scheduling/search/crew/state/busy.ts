import { nextInside, type Spans } from '../compiled/spans.ts';

/**
 * Disjoint spans in which somebody is busy, in order of time. Spans with no minute between them in
 * which that person could ever work are one; `merged` remembers what they were, so that spans can be
 * taken back, the last added first.
 */
export interface BusyList {
  count: number;
  starts: Int32Array;
  ends: Int32Array;
  /** For each span added: the end of the span before and the start of the one after, where joined. */
  readonly merged: number[];
}

const APART = -(2 ** 31);

export const busyList = (): BusyList => ({
  count: 0,
  starts: new Int32Array(64),
  ends: new Int32Array(64),
  merged: [],
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

/** Index of the last span that begins before `t`, -1 where none does. */
export function busyBefore(list: BusyList, t: number): number {
  const { starts } = list;
  let lo = 0;
  let hi = list.count;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (starts[mid] >= t) hi = mid;
    else lo = mid + 1;
  }
  return lo - 1;
}

function insert(list: BusyList, at: number, start: number, end: number): void {
  if (list.count === list.starts.length) {
    list.starts = grown(list.starts);
    list.ends = grown(list.ends);
  }
  const { starts, ends } = list;
  starts.copyWithin(at + 1, at, list.count);
  ends.copyWithin(at + 1, at, list.count);
  starts[at] = start;
  ends[at] = end;
  list.count += 1;
}

function erase(list: BusyList, at: number): void {
  list.starts.copyWithin(at, at + 1, list.count);
  list.ends.copyWithin(at, at + 1, list.count);
  list.count -= 1;
}

/** Books what has happened: kept as it was, and never taken back. */
export function keepBusy(list: BusyList, start: number, end: number): void {
  let i = list.count;
  while (i > 0 && list.starts[i - 1] > start) i -= 1;
  insert(list, i, start, end);
}

/** Books [start, end), which is free; `ever`: all minutes that its owner could ever work. */
export function addBusy(list: BusyList, start: number, end: number, ever: Spans): void {
  const i = busyAfter(list, start);
  const { starts, ends, merged } = list;
  const left = i > 0 && isIdle(ever, ends[i - 1], start);
  const right = i < list.count && isIdle(ever, end, starts[i]);
  merged.push(left ? ends[i - 1] : APART, right ? starts[i] : APART);
  if (left && right) {
    ends[i - 1] = ends[i];
    erase(list, i);
  } else if (left) ends[i - 1] = end;
  else if (right) starts[i] = start;
  else insert(list, i, start, end);
}

/** Whether there is no minute of `ever` in [from, to). */
function isIdle(ever: Spans, from: number, to: number): boolean {
  if (from >= to) return from === to;
  const at = nextInside(ever, from);
  return at < 0 || at >= to;
}

/** Takes back what was added last, which began at `start`. */
export function removeBusy(list: BusyList, start: number): void {
  const { merged } = list;
  const right = merged.pop() ?? APART;
  const left = merged.pop() ?? APART;
  const i = busyAfter(list, start);
  if (left !== APART && right !== APART) {
    insert(list, i + 1, right, list.ends[i]);
    list.ends[i] = left;
  } else if (left !== APART) list.ends[i] = left;
  else if (right !== APART) list.starts[i] = right;
  else erase(list, i);
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
  to.merged.length = 0;
  to.merged.push(...from.merged);
}
