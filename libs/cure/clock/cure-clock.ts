import { DomainError } from '#kernel/error.ts';

import type { CureMaterial, Milestone, Side } from '../material/material.ts';
import { rateOf } from '../material/rate.ts';
import { ageAt, equivalentAge, firstMinuteAt, type EquivalentAge } from './equivalent-age.ts';
import type { TemperatureSeries } from './series.ts';

/**
 * When films of one material in one climate reach one milestone. A film laid at minute t
 * has reached it when the integral of dt / time(T(t)) from t on is 1.
 */
export interface CureClock {
  readonly material: string;
  readonly milestone: Milestone;
  readonly side: Side;
  readonly age: EquivalentAge;
}

/**
 * Rounding errors of the integral stay far below this many minutes over a year of history;
 * a moment within it of a whole minute is that minute, so that 60 min at 20 degrees is 60.
 */
const SLACK = 1e-6;

/** Throws `yard.reference` if the material's sheet lacks the milestone. */
export function cureClock(
  material: CureMaterial,
  milestone: Milestone,
  side: Side,
  series: TemperatureSeries,
): CureClock {
  const table = material.milestones[milestone];
  if (table === undefined) {
    throw new DomainError('yard.reference', `${material.name} has no times for "${milestone}"`, {
      cure: `Add "${milestone}" to the material's data, or use another milestone.`,
    });
  }
  const age = equivalentAge(rateOf(table, side, material.minimumC), series);
  return { material: material.id, milestone, side, age };
}

/**
 * The minute at which a film laid at minute `t` reaches the milestone: an opening rounded
 * up, a closing down. Null if never, which happens only when the history's last temperature
 * (it holds for ever) stalls the cure. Non-decreasing in `t`, counting null as last.
 * `from` as in `firstMinuteAt`.
 */
export function reachedAt(clock: CureClock, t: number, from = 0): number | null {
  const exact = firstMinuteAt(clock.age, ageAt(clock.age, t) + 1, from);
  if (exact === Infinity) return null;
  return clock.side === 'open' ? Math.ceil(exact - SLACK) : Math.floor(exact + SLACK);
}

const reachedBy = (clock: CureClock, t: number, wanted: number): boolean => {
  const reached = reachedAt(clock, t);
  return reached !== null && reached <= wanted;
};

/**
 * The latest minute at which a film can be laid so that `reachedAt` is no later than
 * `wanted`: how late a coat can be for work that must find it open. Null if there is none,
 * which happens only when the history's first temperature stalls the cure.
 */
export function latestStart(clock: CureClock, wanted: number): number | null {
  const { age } = clock;
  if (age.rates[0] === 0 && !reachedBy(clock, age.start, wanted)) return null;
  // Rounding and a stall that follows the exact age both let later starts reach it too;
  // galloping finds the last of them without reading the steps.
  let good = Math.floor(firstMinuteAt(age, ageAt(age, wanted) - 1));
  while (!reachedBy(clock, good, wanted)) good--;
  let width = 1;
  while (reachedBy(clock, good + width, wanted)) width *= 2;
  let bad = good + width;
  while (bad - good > 1) {
    const mid = good + Math.floor((bad - good) / 2);
    if (reachedBy(clock, mid, wanted)) good = mid;
    else bad = mid;
  }
  return good;
}

/**
 * The earliest minute at which a film can be laid so that `reachedAt` is no earlier than
 * `wanted`: how early a coat can be for its window still to be open then.
 */
export function earliestStart(clock: CureClock, wanted: number): number {
  const before = latestStart(clock, wanted - 1);
  return before === null ? -Infinity : before + 1;
}
