import { DomainError } from '#kernel/error.ts';

import type { SetPoint, WallClock } from './settings.ts';

const DAY = 1440;
const WEEK = 7 * DAY;

/** From minute `from` on the space is held at `celsius`. */
export interface Held {
  readonly from: number;
  readonly celsius: number;
}

interface Begins {
  readonly at: number;
  readonly celsius: number;
}

function weekOf(setPoints: readonly SetPoint[]): Begins[] {
  const week = setPoints
    .flatMap(({ weekdays, from, celsius }) =>
      weekdays.map((weekday) => {
        const [hours, minutes] = from.split(':').map(Number);
        return { at: (weekday - 1) * DAY + hours * 60 + minutes, celsius };
      }),
    )
    .sort((a, b) => a.at - b.at);
  if (week.length === 0 || week.some(({ at }) => !(at >= 0 && at < WEEK))) {
    throw new DomainError('input.field', 'The heating schedule cannot be read', {
      cure: 'Give at least one set-point, with weekdays 1-7 and a time HH:MM.',
    });
  }
  return week;
}

/**
 * The set-points in force from minute `first` to `last`, the first at `first`. A schedule follows
 * what the wall shows, as the clock of a heater does: a set-point in an hour that is skipped
 * begins after it, one in an hour that is shown twice begins twice, with the one before it in
 * force again in between. Throws `input.field` for a schedule that cannot be read.
 */
export function heldFrom(
  setPoints: readonly SetPoint[],
  wall: WallClock,
  first: number,
  last: number,
): Held[] {
  const week = weekOf(setPoints);
  const shownAt = (minute: number): number => {
    const { weekday, minuteOfDay } = wall(minute);
    return (weekday - 1) * DAY + minuteOfDay;
  };
  const held: Held[] = [];
  let at = first;
  while (at <= last) {
    const shown = shownAt(at);
    const { celsius } = week.findLast((begins) => begins.at <= shown) ?? week[week.length - 1];
    if (celsius !== held.at(-1)?.celsius) held.push({ from: at, celsius });
    const next = week.find((begins) => begins.at > shown)?.at ?? week[0].at + WEEK;
    // Nothing begins before the next set-point, unless the clocks are changed first.
    const told = (minute: number): boolean => shownAt(minute) === (shown + minute - at) % WEEK;
    let good = at;
    let end = at + next - shown;
    if (!told(end)) {
      while (end - good > 1) {
        const mid = good + Math.floor((end - good) / 2);
        if (told(mid)) good = mid;
        else end = mid;
      }
    }
    at = end;
  }
  return held;
}
