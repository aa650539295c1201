import type { Reading } from './reading.ts';
import { meets, within } from './spans.ts';
import type { Violation } from './violation.ts';

/**
 * Work against calendars. Splittable work is within working time in each segment;
 * other work is within one shift of everybody on it from start to finish, and where
 * breaks are observed it meets none. Frozen work is excused.
 */
export function shifts(reading: Reading): Violation[] {
  const { problem, working } = reading;
  const found: Violation[] = [];
  for (const { placement, activity, mode, frozen } of reading.work) {
    if (frozen) continue;
    const { start, finish, segments } = placement;
    for (const { builder } of placement.crew) {
      const { id, calendar } = problem.builders[builder];
      const { shifts: all, breaks } = problem.calendars[calendar];
      const complain = (what: string): void => {
        found.push({
          kind: 'shift',
          activities: [placement.activity],
          builder,
          message: `${activity.id}, ${start}-${finish}, ${what} of ${id}`,
        });
      };
      if (mode.splittable) {
        if (!segments.every((span) => within(working[calendar], span.start, span.end)))
          complain('works outside the working time');
        continue;
      }
      if (!within(all, start, finish)) complain('is not inside one shift');
      if (mode.breaks === 'observed' && breaks.some((one) => meets(one, { start, end: finish })))
        complain('runs into a break');
    }
  }
  return found;
}
