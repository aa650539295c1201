import { intersect, type Interval } from '#calendar/intervals.ts';
import { crewOf } from '#planning/compile/site/crew.ts';
import { frameOf } from '#planning/compile/frame/time.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';

/** Work that a crew is not through with by then ends when the hours would, without its shifts. */
const DAYS_AHEAD = 30;
const MINUTE_MS = 60_000;

type Work = Pick<Task, 'skill' | 'space' | 'splittable'>;

/** Builder-minutes at the nominal rate that a crew does in a minute, in the task's space; more than 0. */
export function paceOf(yard: Yard, { skill, space }: Work): (crew: readonly string[]) => number {
  const percent = yard.spaces.find(({ id }) => id === space)?.workPercent ?? 100;
  return (crew) => {
    const speed = yard.people
      .filter(({ id }) => crew.includes(id))
      .flatMap(({ abilities }) => abilities.find((one) => one.skill === skill)?.speed ?? [])
      .reduce((sum, one) => sum + one, 0);
    return (speed > 0 ? speed : 100) / percent;
  };
}

/** When all of a crew are at work, from a minute on. */
function together(yard: Yard, members: readonly string[], from: string): Interval[] {
  const people = yard.people.filter(({ id }) => members.includes(id));
  const frame = frameOf({ ...yard, horizonDays: DAYS_AHEAD }, from, undefined);
  const crew = crewOf({ ...yard, people }, frame);
  return crew.builders
    .map((_, k) => crew.worksFrom(k, 0))
    .reduce<Interval[]>(
      (common, own) => intersect(common, own),
      [{ start: 0, end: frame.horizon }],
    );
}

/**
 * When a crew that goes on at a whole minute is through with so many builder-minutes at the nominal
 * rate: work in one piece without a break, other work in the hours in which all of them are there.
 */
export function endOfWork(
  yard: Yard,
  task: Work,
): (crew: readonly string[], from: string, left: number) => string {
  const pace = paceOf(yard, task);
  return (crew, from, left) => {
    const minutes = Math.ceil(left / pace(crew));
    const begin = Date.parse(from);
    const at = (minute: number): string => new Date(begin + minute * MINUTE_MS).toISOString();
    if (!task.splittable || minutes === 0) return at(minutes);
    let rest = minutes;
    for (const { start, end } of together(yard, crew, from)) {
      if (end - start >= rest) return at(start + rest);
      rest -= end - start;
    }
    return at(minutes);
  };
}
