/** Spans of dust, or of open surfaces and wet work, in one space; or of a barrier being closed. */
export interface Air {
  count: number;
  starts: Int32Array;
  ends: Int32Array;
}

export const airList = (): Air => ({
  count: 0,
  starts: new Int32Array(16),
  ends: new Int32Array(16),
});

const grown = (from: Int32Array): Int32Array => {
  const to = new Int32Array(from.length * 2);
  to.set(from);
  return to;
};

export function pushAir(air: Air, start: number, end: number): void {
  if (air.count === air.starts.length) {
    air.starts = grown(air.starts);
    air.ends = grown(air.ends);
  }
  air.starts[air.count] = start;
  air.ends[air.count] = end;
  air.count += 1;
}

export function copyAir(from: Air, to: Air): void {
  to.count = 0;
  for (let i = 0; i < from.count; i += 1) pushAir(to, from.starts[i], from.ends[i]);
}

/** The end of the first span of `air` that meets [start, end), -1 if none. */
export function met(air: Air, start: number, end: number): number {
  for (let i = 0; i < air.count; i += 1)
    if (air.starts[i] < end && air.ends[i] > start) return air.ends[i];
  return -1;
}

/** The start of the earliest span of `air` that meets [start, end), Infinity if none. */
export function firstMet(air: Air, start: number, end: number): number {
  let first = Infinity;
  for (let i = 0; i < air.count; i += 1)
    if (air.starts[i] < end && air.ends[i] > start) first = Math.min(first, air.starts[i]);
  return first;
}

/**
 * As `met`, but only outside the spans of `closed`, which are sorted; the moment at which what
 * is met first ends or the barrier is closed on it.
 */
export function metOutside(air: Air, closed: Air, start: number, end: number): number {
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
