import { bodyAfter, chordAbove, SETTLED } from './heat-store.ts';
import type { Regime } from './regimes.ts';
import type { Held } from './schedule.ts';

/** The points first, first + step, … of which there are n. */
export interface Grid {
  readonly first: number;
  readonly step: number;
  readonly n: number;
}

/** What the air is drawn towards: straight (outdoors) or constant (a schedule) between jumps. */
export interface Drive {
  at(minute: number): number;
  /** Its value just before `minute`, coming from `from` with no jump in between. */
  until(from: number, minute: number): number;
  /** Moments at which it jumps or bends. */
  readonly jumps: readonly number[];
}

/**
 * Temperatures on a grid of lines. The truth may jump (a set-point at once, a heater) and lines
 * cannot: `low` is nowhere above the truth and `high` nowhere below, at every minute; in
 * `expected` each jump is spread over at most two steps so that its integral is that of the
 * truth. So lines are off by no more than the jump, within a step of it.
 */
export interface Track {
  readonly low: Float64Array;
  readonly expected: Float64Array;
  readonly high: Float64Array;
}

/** `bends`: where the outdoors bends between the points of the grid. */
export const outdoorDrive = (
  celsius: (minute: number) => number,
  bends: readonly number[],
): Drive => ({ at: celsius, until: (_, minute) => celsius(minute), jumps: bends });

export function scheduleDrive(held: readonly Held[]): Drive {
  const at = (minute: number): number => {
    let low = 0;
    let high = held.length;
    while (high - low > 1) {
      const mid = (low + high) >>> 1;
      if (held[mid].from <= minute) low = mid;
      else high = mid;
    }
    return held[low].celsius;
  };
  return { at, until: (from) => at(from), jumps: held.slice(1).map(({ from }) => from) };
}

/**
 * The end of a stretch under one regime, and how far the line to it may lie above the truth on
 * the way. A heater lets go at the moment the drive passes it.
 */
function onwards(
  body: number,
  drive: number,
  rise: number,
  minutes: number,
  { tau, atLeastC }: Regime,
): { readonly body: number; readonly above: number } {
  if (body > atLeastC || drive >= atLeastC) {
    const free = bodyAfter(body, drive, rise, minutes, tau);
    const above = chordAbove(body, drive, rise, minutes, tau);
    return free >= atLeastC
      ? { body: free, above }
      : { body: atLeastC, above: Math.max(0, body - atLeastC) };
  }
  if (drive + rise <= atLeastC) return { body: atLeastC, above: 0 };
  const rest = (drive + rise - atLeastC) / rise;
  const end = bodyAfter(atLeastC, atLeastC, rest * rise, rest * minutes, tau);
  return { body: end, above: end - atLeastC };
}

/** The air of a space on a grid, after it has settled into the regime of the first point. */
export function track(drive: Drive, regimes: readonly Regime[], { first, step, n }: Grid): Track {
  const slowest = Math.max(...regimes.map(({ tau }) => tau));
  const begin = first - Math.ceil((SETTLED * slowest) / step) * step;
  const cuts = [...new Set([...drive.jumps, ...regimes.map(({ from }) => from)])]
    .filter((minute) => minute > begin)
    .sort((a, b) => a - b);
  const expected = new Float64Array(n);
  const low = new Float64Array(n).fill(Infinity);
  const high = new Float64Array(n).fill(-Infinity);
  /** How far lines are above (or below) the truth on either side of a point, and what jumps shift. */
  const above = new Float64Array(n);
  const below = new Float64Array(n);
  const shift = new Float64Array(n);
  const keep = (k: number, celsius: number): void => {
    if (k < 0 || k >= n) return;
    if (celsius < low[k]) low[k] = celsius;
    if (celsius > high[k]) high[k] = celsius;
  };
  const bend = (k: number, by: number): void => {
    if (k < 0 || k >= n) return;
    if (by > above[k]) above[k] = by;
    if (-by > below[k]) below[k] = -by;
  };

  let regime = regimes.findLast(({ from }) => from <= begin) ?? regimes[0];
  let nextCut = 0;
  let driven = drive.at(begin) + regime.warmerBy;
  let body = Math.max(driven, regime.atLeastC);
  /** What begins at a cut, and the temperature just after it. */
  const enter = (minute: number): void => {
    regime = regimes.findLast(({ from }) => from <= minute) ?? regime;
    driven = drive.at(minute) + regime.warmerBy;
    body = Math.max(regime.tau === 0 ? driven : body, regime.atLeastC);
    nextCut++;
  };

  for (let k = Math.round((begin - first) / step); k < n; k++) {
    let at = first + k * step;
    const end = at + step;
    if (cuts[nextCut] === at) {
      const before = body;
      enter(at);
      keep(k, before);
      if (k >= 0) shift[k] -= (body - before) / 2;
    }
    keep(k, body);
    if (k >= 0) expected[k] = body;
    for (;;) {
      const to = nextCut < cuts.length ? Math.min(end, cuts[nextCut]) : end;
      const then = drive.until(at, to) + regime.warmerBy;
      const way = onwards(body, driven, then - driven, to - at, regime);
      if (way.above !== 0) {
        bend(k, way.above);
        bend(k + 1, way.above);
      }
      body = way.body;
      driven = then;
      at = to;
      if (at === end) break;
      const before = body;
      enter(at);
      for (const node of [k, k + 1]) {
        keep(node, before);
        keep(node, body);
      }
      const share = (at - end) / step + 1;
      if (k >= 0) shift[k] += Math.max(0, 0.5 - share) * (body - before);
      if (k >= -1 && k + 1 < n) shift[k + 1] -= Math.max(0, share - 0.5) * (body - before);
    }
  }
  for (let k = 0; k < n; k++) {
    low[k] -= above[k];
    high[k] += below[k];
    expected[k] = Math.max(low[k], Math.min(high[k], expected[k] + shift[k]));
  }
  return { low, expected, high };
}
