/**
 * The running integral of a rate over a temperature history, as pieces in which the rate is
 * nearly constant: within one it is a parabola, and the age a cubic. `clock/integrate.ts`
 * makes it. O(log pieces) to read it at a minute and to find when it reaches an age.
 *
 * Ages are non-decreasing over whole minutes in floating point as well: from piece to piece
 * because rates are not negative, and within one because each value is held between those of
 * its ends and a minute adds far more than rounding.
 */
export interface EquivalentAge {
  /** Minute at which each piece begins, and the end of the last. */
  readonly at: Float64Array;
  /** Age at these minutes; 0 at the first. */
  readonly ages: Float64Array;
  /** Of each piece, u minutes into it, age = ages + u (rate + u (tilt + u bend)). */
  readonly rate: Float64Array;
  readonly tilt: Float64Array;
  readonly bend: Float64Array;
  /** Rate before the first minute and after the last. */
  readonly before: number;
  readonly after: number;
}

/** The piece that a minute of the history is in. */
function pieceAt(at: Float64Array, minute: number): number {
  let low = 0;
  let high = at.length - 1;
  while (high - low > 1) {
    const mid = (low + high) >>> 1;
    if (at[mid] <= minute) low = mid;
    else high = mid;
  }
  return low;
}

/** Age gathered within piece k by u minutes into it. */
function ageInPiece({ ages, rate, tilt, bend }: EquivalentAge, k: number, u: number): number {
  const gathered = u * (rate[k] + u * (tilt[k] + u * bend[k]));
  return Math.min(ages[k + 1], ages[k] + Math.max(0, gathered));
}

/** Age gathered from the start of the history to a minute (negative before it). */
export function ageAt(age: EquivalentAge, minute: number): number {
  const { at, ages, before, after } = age;
  const n = at.length - 1;
  if (minute < at[0]) return (minute - at[0]) * before;
  if (minute >= at[n]) return ages[n] + (minute - at[n]) * after;
  const k = pieceAt(at, minute);
  return ageInPiece(age, k, minute - at[k]);
}

/** Fills in the ages at whole minutes of piece k; returns the first minute behind it. */
function agesInPiece(age: EquivalentAge, k: number, first: number, out: Float64Array): number {
  const { at, ages } = age;
  const from = at[k];
  const least = ages[k];
  const most = ages[k + 1];
  const [rate, tilt, bend] = [age.rate[k], age.tilt[k], age.bend[k]];
  const end = Math.min(Math.ceil(at[k + 1]), out.length);
  let minute = first;
  for (; minute < end; minute++) {
    const u = minute - from;
    // As `ageInPiece`, without its calls: until they are optimised they cost more than all else.
    const gathered = u * (rate + u * (tilt + u * bend));
    const there = gathered > 0 ? least + gathered : least;
    out[minute] = there < most ? there : most;
  }
  return minute;
}

/** Fills in the ages at the whole minutes that `out` has room for, from 0 on, each what `ageAt` gives. */
export function agesOfMinutes(age: EquivalentAge, out: Float64Array): void {
  const { at } = age;
  const last = out.length - 1;
  const n = at.length - 1;
  let minute = 0;
  for (; minute <= last && minute < at[0]; minute++) out[minute] = ageAt(age, minute);
  const first = minute <= last ? pieceAt(at, minute) : n;
  for (let k = first; k < n && minute <= last; k++) minute = agesInPiece(age, k, minute, out);
  for (; minute <= last; minute++) out[minute] = ageAt(age, minute);
}

/** Newton's method doubles the digits at each step, and a piece is nearly straight. */
const NEWTON_STEPS = 3;

/**
 * The first minute (real) at which the age is reached; Infinity if it never is. An age that
 * was there before the history began, in a stall without beginning, is dated to its start.
 */
export function firstMinuteAt(age: EquivalentAge, wanted: number): number {
  const { at, ages, rate, tilt, bend, before, after } = age;
  const n = at.length - 1;
  if (wanted <= 0) return before > 0 ? at[0] + wanted / before : at[0];
  if (wanted > ages[n]) return after > 0 ? at[n] + (wanted - ages[n]) / after : Infinity;
  // Invariant: ages[low] < wanted <= ages[high]; so the piece found has a rate above 0.
  let low = 0;
  let high = n;
  while (high - low > 1) {
    const mid = (low + high) >>> 1;
    if (ages[mid] < wanted) low = mid;
    else high = mid;
  }
  const width = at[low + 1] - at[low];
  let u = (width * (wanted - ages[low])) / (ages[low + 1] - ages[low]);
  if (tilt[low] === 0 && bend[low] === 0) return at[low] + u;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const here = rate[low] + u * (2 * tilt[low] + 3 * u * bend[low]);
    u = Math.min(width, Math.max(0, u + (wanted - ageInPiece(age, low, u)) / here));
  }
  return at[low] + u;
}
