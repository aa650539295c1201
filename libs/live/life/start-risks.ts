import { cupsFor } from '#cure/batch/cups.ts';
import { reachedAt } from '#cure/clock/cure-clock.ts';
import { DomainError, fault, type Fault } from '#kernel/error.ts';
import { crewOf, unbroken } from '#planning/compile/site/crew.ts';
import { amountsOfTask } from '#planning/compile/work/amounts.ts';
import { timesOf, wholeCup } from '#planning/compile/work/one-batch.ts';
import { extremes } from '#planning/decode/reading/extremes.ts';
import { around, type Around } from '#planning/questions/around.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { paceOf } from './pace.ts';

/** Wet work is over within a shift; shifts of two days around are looked at. */
const DAYS = 2;

interface Start {
  readonly yard: Yard;
  readonly task: Task;
  readonly crew: readonly string[];
  /** When it is begun. */
  readonly at: string;
}

interface Laying extends Around {
  readonly material: string;
  readonly start: number;
  /** That this crew takes, at the speeds the yard has for it. */
  readonly minutes: number;
}

/** Past whose shift, overtime that the yard may ask for included, the work and its cleaning would run. */
function shiftFaults({ yard, task, crew }: Start, { frame, at, start, minutes }: Laying): Fault[] {
  const people = yard.people.filter(({ id }) => crew.includes(id));
  const { builders, calendars } = crewOf({ ...yard, people }, frame);
  const over = start + minutes + task.cleanDownMinutes;
  return builders.flatMap(({ id, calendar }) => {
    const name = people.find((person) => person.id === id)?.name ?? id;
    const shift = unbroken(calendars[calendar], task.breaks).find(
      (span) => span.start <= start && start < span.end,
    );
    const told = { value: id };
    if (shift === undefined) {
      const message = `${name} is not at work at ${at.words(start)}`;
      return [fault('work.unsafe-start', 'crew', message, told)];
    }
    if (shift.end >= over) return [];
    const message = `it would run past ${name}'s shift: until ${at.words(over)}, and that ends ${at.words(shift.end)}`;
    return [fault('work.unsafe-start', 'crew', message, told)];
  });
}

const degrees = (celsius: number): string => `${String(Math.round(celsius * 10) / 10)} °C`;

/** One mix, of which the crew is not through when it goes off. */
function batchFaults({ yard, task }: Start, laying: Laying): Fault[] {
  const { films, start, minutes, material } = laying;
  const cup = wholeCup(yard, task, films);
  if (cup === null) return [];
  const lasts = Math.min(
    ...cup.ends.map((milestone) => {
      const times = timesOf(cup, milestone);
      const clock = films.clock(material, milestone, 'close', [task.space], times);
      return (reachedAt(clock, start) ?? Infinity) - start;
    }),
  );
  if (lasts >= minutes) return [];
  const { high } = extremes(films.resin(material, task.space).warm, start, start + minutes);
  const message = `the batch lasts ${String(Math.floor(lasts))} min at ${degrees(high)}, and this crew takes ${String(minutes)} min to spread it`;
  return [fault('work.unsafe-start', 'crew', message, { value: task.id })];
}

/** Cups that gel faster than they are spread, however small; or a material too warm to be mixed. */
function cupFaults({ yard, task }: Start, laying: Laying): Fault[] {
  const { films, start, minutes, material: id } = laying;
  const material = films.material(id);
  const amounts = amountsOfTask(yard, task, material);
  if (amounts === null || material.milestones['pot-life'] === undefined) return [];
  const { high } = extremes(films.resin(id, task.space).warm, start, start + minutes);
  const { mixGrams, filmMm } = amounts;
  const cups = cupsFor({
    material,
    celsius: high,
    mixGrams,
    filmMm,
    spreadMinutes: Math.max(1, minutes),
    share: yard.cupShare / 100,
  });
  if (cups.length > 0) return [];
  const message = `${material.name} may not be mixed at ${degrees(high)}`;
  return [fault('work.unsafe-start', '', message, { value: task.id })];
}

/** What a sheet does not say is no reason against a start: the mix sheet names it. */
function potFaults(start: Start, laying: Laying): Fault[] {
  try {
    return start.task.oneBatch ? batchFaults(start, laying) : cupFaults(start, laying);
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    if (error.code !== 'cure.batch') return [];
    return [fault('work.unsafe-start', '', error.message, { value: start.task.id })];
  }
}

/**
 * Why wet work should not begin at a moment with a crew: it would run past somebody's shift, or what
 * is mixed would go off before it is spread, as warm as the space may be then. Dry work can be put
 * aside. Of `work.unsafe-start`; the data sheet of what is mixed goes before all this.
 */
export function startRisks(input: Start): Fault[] {
  const { yard, task, crew, at } = input;
  const { material, space, skill } = task;
  if (material === null || skill === null) return [];
  const seen = around(yard, at, DAYS, { spaces: [space], materials: [material] });
  const work = task.workMinutes / paceOf(yard, task)(crew);
  const minutes = Math.max(task.floorMinutes, Math.ceil(work - 1e-6));
  const laying = { ...seen, material, start: seen.frame.minuteOf(at), minutes };
  return [...shiftFaults(input, laying), ...potFaults(input, laying)];
}
