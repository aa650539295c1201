import type { Reckoning } from '../material/rate.ts';
import { ageAt, firstMinuteAt, type EquivalentAge } from './equivalent-age.ts';

/**
 * Share of a cure: the rounding errors of an integral stay below it, so that 60 min at 20
 * degrees is 60. Of a cure that takes a day it is a hundredth of a second.
 */
export const SLACK = 1e-9;

/** Minutes: the same for a conversion, whose integration is right to about that. */
const MINUTE_SLACK = 1e-4;

/**
 * The whole minute at which an age is reached, from `minute`, the first by which it is, and the
 * ages there and a minute before: of an opening that minute, of a closing the one before unless
 * it is reached at the minute exactly, of an expectation the nearer one.
 */
function ofSide(
  side: Reckoning,
  minute: number,
  before: number,
  then: number,
  wanted: number,
): number {
  if (side === 'open' || then <= wanted + SLACK) return minute;
  return side === 'close' || wanted - before < then - wanted ? minute - 1 : minute;
}

/**
 * The whole minute at which an age is reached; null if it never is. Decided by the ages of
 * whole minutes, which never descend, so that it never descends with the age either.
 */
export function wholeMinute(age: EquivalentAge, side: Reckoning, wanted: number): number | null {
  const enough = wanted - SLACK;
  const exact = firstMinuteAt(age, enough);
  if (exact === Infinity) return null;
  let minute = Math.ceil(exact);
  while (ageAt(age, minute) < enough) minute++;
  let before = ageAt(age, minute - 1);
  while (before >= enough) before = ageAt(age, --minute - 1);
  return ofSide(side, minute, before, ageAt(age, minute), wanted);
}

/** A real minute as a whole one of a side; null for Infinity. */
export function wholeOf(side: Reckoning, exact: number): number | null {
  if (exact === Infinity) return null;
  if (side === 'expected') return Math.round(exact);
  return side === 'open' ? Math.ceil(exact - MINUTE_SLACK) : Math.floor(exact + MINUTE_SLACK);
}
