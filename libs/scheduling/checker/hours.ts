import type { Calendar, Interval } from '../model/problem.ts';
import { merged, minus } from './spans.ts';

/** A calendar as one piece of work sees it. */
export interface Hours {
  /** Work that may not pause lies in one of these. */
  readonly shifts: readonly Interval[];
  /** The shifts less the breaks. */
  readonly working: readonly Interval[];
}

const hours = (shifts: readonly Interval[], { breaks }: Calendar): Hours => ({
  shifts,
  working: minus(shifts, breaks),
});

export const regularHours = (calendar: Calendar): Hours => hours(calendar.shifts, calendar);

/** Shifts and overtime as one: spans that touch are one shift. */
export const extendedHours = (calendar: Calendar): Hours =>
  hours(merged([...calendar.shifts, ...calendar.overtime]), calendar);
