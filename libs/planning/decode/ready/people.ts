import { subtract, union, type Interval, type IntervalSet } from '#calendar/intervals.ts';
import { expandShifts } from '#calendar/shifts/expand.ts';
import { overtimeOf } from '../../compile/frame/hours.ts';
import type { Frame } from '../../compile/frame/time.ts';
import { once } from '../../compile/once.ts';
import type { Task } from '../../workload/workload.ts';
import type { Person } from '../../yard/people.ts';
import type { Yard } from '../../yard/yard.ts';
import type { PlanSheet } from '../sheet.ts';
import type { Place } from './place.ts';

const DAY = 1440;

/** So far beyond now people are looked for; minutes. */
export const SIGHT = 7 * DAY;

interface Hours {
  /** The day from which on they are known. */
  readonly from: number;
  readonly of: Map<string, IntervalSet>;
}

const hours = new WeakMap<Yard, Hours>();

/** When somebody may be at work, overtime included, from today until past what is in sight. */
export function hoursOf(
  person: Person,
  breaks: Task['breaks'],
  { yard, frame, now }: Pick<Place, 'yard' | 'frame' | 'now'>,
): IntervalSet {
  const from = Math.floor(now / DAY) * DAY;
  const before = hours.get(yard);
  const known = before?.from === from ? before : { from, of: new Map<string, IntervalSet>() };
  if (known !== before) hours.set(yard, known);
  return once(known.of, `${person.id} ${breaks}`, () => {
    const span = { ...frame, origin: frame.isoAt(from), horizon: SIGHT + 3 * DAY };
    const { shifts, exceptions } = person;
    const time = expandShifts(shifts, exceptions, span.timeZone, span.origin, span.horizon);
    const all = union(time.shifts, overtimeOf(person, time.shifts, span));
    const whole = breaks === 'relieved' ? all : subtract(all, time.breaks);
    return whole.map(({ start, end }) => ({ start: start + from, end: end + from }));
  });
}

interface PlannedSpan extends Interval {
  readonly taskId: string;
}

/** A plan by who does what when; minutes. */
interface Planned {
  readonly tasks: ReadonlyMap<string, { readonly start: number; readonly crew: readonly string[] }>;
  readonly people: ReadonlyMap<string, readonly PlannedSpan[]>;
}

const plans = new WeakMap<PlanSheet, { readonly yard: Yard; readonly planned: Planned }>();

/** Made once for a plan, and the yard that minutes count from. */
export function plannedFor(sheet: PlanSheet, yard: Yard, frame: Frame): Planned {
  const known = plans.get(sheet);
  if (known?.yard === yard) return known.planned;
  const tasks = new Map<string, { readonly start: number; readonly crew: readonly string[] }>();
  const people = new Map<string, PlannedSpan[]>();
  for (const { id: taskId, start, segments, crew } of sheet.tasks) {
    const members = crew.map(({ personId }) => personId);
    tasks.set(taskId, { start: frame.minuteOf(start.at), crew: members });
    const spans = segments.map((one): PlannedSpan => {
      const end = frame.minuteOf(one.finish.at);
      return { taskId, start: frame.minuteOf(one.start.at), end };
    });
    for (const member of members) {
      const all = people.get(member);
      if (all === undefined) people.set(member, [...spans]);
      else all.push(...spans);
    }
  }
  const planned = { tasks, people };
  plans.set(sheet, { yard, planned });
  return planned;
}
