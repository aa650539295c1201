import { addDays, dayNumber } from '#calendar/local-date.ts';
import { instantOf, isoOf, toInstant, toLocal } from '#calendar/local-time.ts';
import type { Yard } from '#planning/yard/yard.ts';

/**
 * The yard of a file with its dates moved into the coming weeks of `now`, wall times kept: its
 * plan has begun today (or yesterday, before the hour at which it begins), so that there is
 * work to take up. Boats are released as long after that as in the file, and what was read, found
 * and laid before it stays as long before. All else that has a date (promises, days off, weather,
 * heaters, slots, deliveries, what is lent) moves by whole weeks, forward of that, so that weekdays
 * stay what they are.
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
  const later = (instant: string): string => moved(instant, weeks);
  const span = <T extends { readonly from: string; readonly to: string }>(spans: T): T => ({
    ...spans,
    from: later(spans.from),
    to: later(spans.to),
  });
  return {
    ...yard,
    planFrom: moved(yard.planFrom, days),
    outdoor: yard.outdoor && { ...yard.outdoor, from: later(yard.outdoor.from) },
    people: yard.people.map((person) => ({
      ...person,
      exceptions: person.exceptions.map((exception) => ({
        ...exception,
        date: addDays(exception.date, weeks),
      })),
    })),
    spaces: yard.spaces.map((space) => ({
      ...space,
      taken: space.taken.map(span),
      changes: space.changes.map(span),
    })),
    tools: yard.tools.map((tool) => ({ ...tool, away: tool.away.map(span) })),
    slotLists: yard.slotLists.map((list) => ({ ...list, slots: list.slots.map(span) })),
    deliveries: yard.deliveries.map((one) => ({ ...one, expected: later(one.expected) })),
    readings: yard.readings.map((one) => ({ ...one, at: moved(one.at, days) })),
    observations: yard.observations.map((one) => ({
      ...one,
      laidAt: moved(one.laidAt, days),
      at: moved(one.at, days),
    })),
    boats: yard.boats.map((boat) => ({
      ...boat,
      refits: boat.refits.map((refit) => ({
        ...refit,
        release: moved(refit.release, days),
        promised: refit.promised && later(refit.promised),
        handovers: refit.handovers.map(later),
        parts: refit.parts.map((part) => ({
          ...part,
          layers: part.layers.map((layer) => ({
            ...layer,
            laidAt: layer.laidAt && moved(layer.laidAt, days),
          })),
          jobs: part.jobs.map((job) => ({
            ...job,
            words: job.words.map((word) => ({ ...word, expected: later(word.expected) })),
          })),
        })),
      })),
    })),
  };
}
