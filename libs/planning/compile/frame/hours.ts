import { expandShifts } from '#calendar/shifts/expand.ts';
import { subtract, type Interval } from '#calendar/intervals.ts';
import type { Calendar, CapacityStep } from '#scheduling/model/problem.ts';
import type { Person } from '../../yard/people.ts';
import type { Absence, Hours } from '../../yard/spaces.ts';
import type { Frame } from './time.ts';

/** Weekly hours of a space or a tool as a calendar. */
export function hoursCalendar(
  id: string,
  hours: readonly Hours[],
  frame: Frame,
  source: string,
): Calendar {
  const pattern = hours.map((span) => ({ ...span, breaks: [] }));
  const { shifts } = expandShifts(pattern, [], frame.timeZone, frame.origin, frame.horizon);
  return { id, shifts, breaks: [], overtime: [], source };
}

/** Overtime that meets no shift; a date with an exception has none. */
export function overtimeOf(person: Person, shifts: readonly Interval[], frame: Frame): Interval[] {
  const pattern = person.overtime.map((span) => ({ ...span, breaks: [] }));
  const exceptions = person.exceptions.map(({ date }) => ({ date, shifts: [] }));
  const hours = expandShifts(pattern, exceptions, frame.timeZone, frame.origin, frame.horizon);
  return subtract(hours.shifts, shifts);
}

/** A count less what is away at each moment, never below nothing. */
export function capacitySteps(
  count: number,
  absences: readonly Absence[],
  frame: Frame,
): CapacityStep[] {
  const spans = absences.map(({ from, to, count: away }) => ({
    start: Math.max(0, frame.minuteOf(from)),
    end: Math.min(frame.horizon, frame.minuteOf(to)),
    away,
  }));
  const moments = [0, ...spans.flatMap(({ start, end }) => [start, end])]
    .filter((minute) => minute < frame.horizon)
    .sort((a, b) => a - b);
  const steps: CapacityStep[] = [];
  for (const from of new Set(moments)) {
    const away = spans
      .filter(({ start, end }) => start <= from && from < end)
      .reduce((sum, span) => sum + span.away, 0);
    const capacity = Math.max(0, count - away);
    if (steps.at(-1)?.capacity !== capacity) steps.push({ from, capacity });
  }
  return steps;
}
