import type { Side } from '../material/material.ts';
import type { CureClock } from './cure-clock.ts';
import { agesOfMinutes, type EquivalentAge } from './equivalent-age.ts';
import { SLACK, wholeOf } from './whole-minute.ts';

/**
 * Between which whole minutes a film laid at t reaches the milestone, for t from 0 to the horizon;
 * horizon + 1 for later and never. The two are one and the same where that is known, and neither
 * descends. Where each film has to be integrated on its own they may be a minute apart.
 */
export interface Swept {
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
}

/**
 * Memory for one sweep after the other up to a horizon: fresh pages cost several times what is
 * done with them. A sweep is good until the next in the same room.
 */
export interface Room {
  readonly ages: Float64Array;
  readonly minutes: Int32Array;
}

export const roomFor = (horizon: number): Room => ({
  ages: new Float64Array(horizon + 2),
  minutes: new Int32Array(horizon + 1),
});

/** Two pointers: the later a film, the later it is there. O(pieces + horizon). */
function sweepAge(
  age: EquivalentAge,
  side: Side,
  horizon: number,
  { ages, minutes }: Room,
): Int32Array {
  const never = horizon + 1;
  agesOfMinutes(age, ages);
  let then = 1;
  let laid = 0;
  for (; laid <= horizon; laid++) {
    const wanted = ages[laid] + 1;
    const enough = wanted - SLACK;
    while (then <= never && ages[then] < enough) then++;
    if (then > never) break;
    minutes[laid] = side === 'open' || ages[then] <= wanted + SLACK ? then : then - 1;
  }
  return minutes.fill(never, laid);
}

/** Minutes between the films that are integrated first. */
const COARSE = 64;
/** Minutes by which films between may be off the parabola through three others for it to do. */
const SMOOTH = 0.03;
/** Minutes that are allowed for where the parabola stands in for a film. */
const ALLOWANCE = 0.05;

/**
 * Films some way apart are integrated, and the stretch between two is halved until its quarters
 * lie on a parabola through its ends and middle (or it has no middle, as where a stall begins).
 */
function sweepFilms(reached: (laid: number) => number, side: Side, horizon: number): Swept {
  const never = horizon + 1;
  const earliest = new Int32Array(horizon + 1);
  const latest = new Int32Array(horizon + 1);
  const put = (laid: number, exact: number, within: number): void => {
    earliest[laid] = Math.min(never, wholeOf(side, exact - within) ?? never);
    latest[laid] = Math.min(never, wholeOf(side, exact + within) ?? never);
  };
  const known = (laid: number): number => {
    const exact = reached(laid);
    put(laid, exact, 0);
    return exact;
  };
  const between = (from: number, to: number, a: number, middle: number, b: number): void => {
    const half = (to - from) / 2;
    const mid = from + half;
    if (half < 2 || a >= never) {
      for (let laid = from + 1; laid < to; laid++)
        if (laid !== mid) put(laid, a >= never ? Infinity : reached(laid), 0);
      return;
    }
    const [tilt, bend] = [(b - a) / 2, (a + b) / 2 - middle];
    const parabola = (laid: number): number => {
      const x = (laid - mid) / half;
      return middle + x * (tilt + x * bend);
    };
    const quarters = [mid - half / 2, mid + half / 2] as const;
    const [first, third] = [known(quarters[0]), known(quarters[1])];
    const off = Math.max(
      Math.abs(parabola(quarters[0]) - first),
      Math.abs(parabola(quarters[1]) - third),
    );
    if (off <= SMOOTH) {
      for (let laid = from + 1; laid < to; laid++)
        if (laid !== mid && laid !== quarters[0] && laid !== quarters[1])
          put(laid, parabola(laid), ALLOWANCE);
    } else {
      between(from, mid, a, first, middle);
      between(mid, to, middle, third, b);
    }
  };
  let before = known(0);
  let from = 0;
  for (; from + COARSE <= horizon; from += COARSE) {
    const [middle, then] = [known(from + COARSE / 2), known(from + COARSE)];
    between(from, from + COARSE, before, middle, then);
    before = then;
  }
  for (let laid = from + 1; laid <= horizon; laid++) known(laid);
  // Integrating each on its own leaves them in order only to within its tolerance.
  for (let laid = 1; laid <= horizon; laid++)
    earliest[laid] = Math.max(earliest[laid], earliest[laid - 1]);
  for (let laid = horizon - 1; laid >= 0; laid--)
    latest[laid] = Math.min(latest[laid], latest[laid + 1]);
  return { earliest, latest };
}

export function sweep({ by, side }: CureClock, horizon: number, room: Room): Swept {
  if (by.kind === 'conversion') return sweepFilms(by.reached, side, horizon);
  const minutes = sweepAge(by.age, side, horizon, room);
  return { earliest: minutes, latest: minutes };
}
