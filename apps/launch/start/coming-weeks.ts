import { addDays, dayNumber } from '#calendar/local-date.ts';
import { instantOf, isoOf, toInstant, toLocal } from '#calendar/local-time.ts';
import type { Yard } from '#planning/yard/yard.ts';

/**
 * The yard of a file with its dates moved into the coming weeks of `now`, wall times kept: its
 * plan has begun today (or yesterday, before the hour at which it begins), so that there is
 * work to take up. Boats are released as long after that as in the file. Promises, days off
 * and weather move by whole weeks, forward of that, so that weekdays stay what they are.
 */
export function inComingWeeks(yard: Yard, now: Date): Yard {
  const { timeZone } = yard;
  const begin = toLocal(instantOf(yard.planFrom), timeZone);
  const here = toLocal(Math.floor(now.getTime() / 60_000), timeZone);
  const today = here.time >= begin.time ? here.date : addDays(here.date, -1);
  const days = dayNumber(today) - dayNumber(begin.date);
  const weeks = Math.ceil(days / 7) * 7;
  const moved = (instant: string, by: number): string => {
    const { date, time } = toLocal(instantOf(instant), timeZone);
    return isoOf(toInstant(addDays(date, by), time, timeZone));
  };
  return {
    ...yard,
    planFrom: moved(yard.planFrom, days),
    outdoor: yard.outdoor && { ...yard.outdoor, from: moved(yard.outdoor.from, weeks) },
    people: yard.people.map((person) => ({
      ...person,
      exceptions: person.exceptions.map((exception) => ({
        ...exception,
        date: addDays(exception.date, weeks),
      })),
    })),
    boats: yard.boats.map((boat) => ({
      ...boat,
      refits: boat.refits.map((refit) => ({
        ...refit,
        release: moved(refit.release, days),
        promised: refit.promised && moved(refit.promised, weeks),
      })),
    })),
  };
}
