/** Spans of dust, or of open surfaces and wet work, in one space; or of a barrier being closed. By start. */
export interface Air {
  count: number;
  starts: Int32Array;
  ends: Int32Array;
  /** No span is longer: what begins so long before a moment cannot reach it. */
  longest: number;
}

export const airList = (): Air => ({
  count: 0,
  starts: new Int32Array(16),
  ends: new Int32Array(16),
  longest: 0,
});

const grown = (from: Int32Array): Int32Array => {
  const to = new Int32Array(from.length * 2);
  to.set(from);
  return to;
};

export function addAir(air: Air, start: number, end: number): void {
  if (air.count === air.starts.length) {
    air.starts = grown(air.starts);
    air.ends = grown(air.ends);
  }
  const { starts, ends } = air;
  let i = air.count;
  while (i > 0 && starts[i - 1] > start) {
    starts[i] = starts[i - 1];
    ends[i] = ends[i - 1];
    i -= 1;
  }
  starts[i] = start;
  ends[i] = end;
  air.count += 1;
  if (end - start > air.longest) air.longest = end - start;
}

/** The first span that begins after `t`. */
function firstAfter({ starts, count }: Air, t: number): number {
  let lo = 0;
  let hi = count;
  while (lo < hi) {
    const mid = (lo + hi) >> 1;
    if (starts[mid] > t) hi = mid;
    else lo = mid + 1;
  }
  return lo;
}

/** Takes back a span that was added; of equal ones, any. */
export function removeAir(air: Air, start: number, end: number): void {
  const { starts, ends } = air;
  let i = firstAfter(air, start) - 1;
  while (ends[i] !== end) i -= 1;
  starts.copyWithin(i, i + 1, air.count);
  ends.copyWithin(i, i + 1, air.count);
  air.count -= 1;
}

export function clearAir(air: Air): void {
  air.count = 0;
  air.longest = 0;
}

export function copyAir(from: Air, to: Air): void {
  while (to.starts.length < from.count) {
    to.starts = grown(to.starts);
    to.ends = grown(to.ends);
  }
  for (let i = 0; i < from.count; i += 1) {
    to.starts[i] = from.starts[i];
    to.ends[i] = from.ends[i];
  }
  to.count = from.count;
  to.longest = from.longest;
}

/** The end of the first span of `air` that meets [start, end), -1 if none. */
export function met(air: Air, start: number, end: number): number {
  const { count, starts, ends } = air;
  if (count === 0) return -1;
  for (let i = firstAfter(air, start - air.longest); i < count && starts[i] < end; i += 1)
    if (ends[i] > start) return ends[i];
  return -1;
}

/** The start of the earliest span of `air` that meets [start, end), Infinity if none. */
export function firstMet(air: Air, start: number, end: number): number {
  const { count, starts, ends } = air;
  for (let i = firstAfter(air, start - air.longest); i < count && starts[i] < end; i += 1)
    if (ends[i] > start) return starts[i];
  return Infinity;
}

/**
 * As `met`, but only outside the spans of `closed`, which are disjoint; the moment at which what
 * is met first ends or the barrier is closed on it.
 */
export function metOutside(air: Air, closed: Air, start: number, end: number): number {
  if (air.count === 0) return -1;
  let from = start;
  for (let i = 0; i <= closed.count && from < end; i += 1) {
    const until = i < closed.count ? closed.starts[i] : Infinity;
    if (until > from) {
      const at = met(air, from, Math.min(end, until));
      if (at >= 0) return Math.min(at, until);
    }
    if (i < closed.count) from = Math.max(from, closed.ends[i]);
  }
  return -1;
}

/** As `firstMet`, but only outside the spans of `closed`. */
export function firstMetOutside(air: Air, closed: Air, start: number, end: number): number {
  let from = start;
  for (let i = 0; i <= closed.count && from < end; i += 1) {
    const until = i < closed.count ? closed.starts[i] : Infinity;
    if (until > from) {
      const at = firstMet(air, from, Math.min(end, until));
      if (at < Infinity) return Math.max(at, from);
    }
    if (i < closed.count) from = Math.max(from, closed.ends[i]);
  }
  return Infinity;
}

/** Where two lists meet: the moment at which the first such meeting ends; -1 if none. `closed`: only outside it. */
export function meeting(dust: Air, open: Air, closed: Air | null): number {
  for (let k = 0; k < open.count; k += 1) {
    const { starts, ends } = open;
    const at =
      closed === null
        ? met(dust, starts[k], ends[k])
        : metOutside(dust, closed, starts[k], ends[k]);
    if (at >= 0) return Math.min(at, ends[k]);
  }
  return -1;
}
