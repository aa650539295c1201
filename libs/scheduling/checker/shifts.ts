import type { Interval } from '../model/problem.ts';
import { hoursOf, keepingHours, resourceHours } from './common-time.ts';
import type { Hours } from './hours.ts';
import type { Reading, Work } from './reading.ts';
import { meets, within } from './spans.ts';
import type { Violation } from './violation.ts';

/**
 * What work does outside the hours of somebody, or null: splittable work is within working time
 * in each segment; other work is within one shift until `end`, and meets none of `breaks`.
 */
function outside(
  { placement, mode }: Work,
  { shifts, working }: Hours,
  breaks: readonly Interval[],
  end: number,
): string | null {
  const { start, segments } = placement;
  if (mode.splittable)
    return segments.every((span) => within(working, span.start, span.end))
      ? null
      : 'works outside the working time';
  if (!within(shifts, start, end)) return 'is not inside one shift';
  return breaks.some((one) => meets(one, { start, end })) ? 'runs into a break' : null;
}

/** The builders' calendars, with overtime where the work is placed with it. */
function people(reading: Reading, work: Work): Violation[] {
  const { problem } = reading;
  const { placement, activity, mode, freed } = work;
  const { start, finish, overtime } = placement;
  return placement.crew.flatMap(({ builder }): Violation[] => {
    const { id, calendar } = problem.builders[builder];
    const own = hoursOf(reading, builder, overtime);
    const breaks = mode.breaks === 'observed' ? problem.calendars[calendar].breaks : [];
    const constraint = { kind: 'calendar', builder } as const;
    const activities = [placement.activity];
    const working = outside(work, own, breaks, finish);
    if (working !== null) {
      const message = `${activity.id}, ${start}-${finish}, ${working} of ${id}`;
      return [{ kind: 'shift', activities, constraint, message }];
    }
    const cleaning = outside(work, own, breaks, freed);
    if (cleaning === null) return [];
    const message = `the clean-down of ${activity.id}, until ${freed}, ${cleaning} of ${id}`;
    return [{ kind: 'clean-down', activities, constraint, message }];
  });
}

/** The resources' calendars, whose breaks are always observed. No minutes of work are anywhere. */
function machines(reading: Reading, work: Work): Violation[] {
  const { problem } = reading;
  const { placement, activity, mode, freed } = work;
  if (placement.start === freed) return [];
  return keepingHours(reading, mode).flatMap((resource): Violation[] => {
    const { id, calendar } = problem.resources[resource];
    const own = resourceHours(reading, resource);
    if (own === null || calendar === null) return [];
    const what = outside(work, own, problem.calendars[calendar].breaks, freed);
    if (what === null) return [];
    const message = `${activity.id}, ${placement.start}-${freed}, ${what} of ${id}`;
    const constraint = { kind: 'hours', resource } as const;
    return [{ kind: 'hours', activities: [placement.activity], constraint, message }];
  });
}

/** Overtime is for people, and what has happened does not ask for any. */
function claimed({ placement, activity, mode, frozen }: Work): Violation[] {
  if (!placement.overtime || (mode.crew.length > 0 && !frozen)) return [];
  const message = `${activity.id} is placed with overtime ${frozen ? 'though it has happened' : 'without a crew'}`;
  return [{ kind: 'overtime', activities: [placement.activity], constraint: null, message }];
}

/** Work against calendars; frozen work is excused from them. */
export function shifts(reading: Reading): Violation[] {
  return reading.work.flatMap((work) => [
    ...claimed(work),
    ...(work.frozen ? [] : [...people(reading, work), ...machines(reading, work)]),
  ]);
}
