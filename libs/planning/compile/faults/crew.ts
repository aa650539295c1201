import { fault, type Fault } from '#kernel/error.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { ableFor, headCounts, minutesWith, type Site } from '../work/activities.ts';
import { mostOf } from '../site/places.ts';
import { unbroken, type Crew } from '../site/crew.ts';
import type { Begun } from '../work/frozen.ts';
import { duration, jobPath, skillName, spaceName, stepPath, taskWords } from '../trace/rows.ts';

/** Whether so many of the builders are ever at work together for so long in one piece. */
function together(task: Task, heads: number, minutes: number, crew: Crew): boolean {
  const moves = ableFor(task, crew).flatMap((builder) =>
    unbroken(crew.calendars[crew.builders[builder].calendar], task.breaks)
      .filter((span) => span.end - span.start >= minutes)
      .flatMap((span) => [
        { at: span.start, step: 1 },
        { at: span.end - minutes + 1, step: -1 },
      ]),
  );
  moves.sort((a, b) => a.at - b.at || a.step - b.step);
  let present = 0;
  return moves.some(({ step }) => (present += step) >= heads);
}

function longestSpan(task: Task, crew: Crew): number {
  const spans = ableFor(task, crew).flatMap((builder) =>
    unbroken(crew.calendars[crew.builders[builder].calendar], task.breaks),
  );
  return Math.max(0, ...spans.map((span) => span.end - span.start));
}

/** In one piece with its clean-down. */
const wholeMinutes = (task: Task, heads: number, crew: Crew): number =>
  minutesWith(task, heads, crew, 'quickest') + task.cleanDownMinutes;

function pieceFault(yard: Yard, task: Task, heads: readonly number[], site: Site): Fault | null {
  const { crew } = site;
  const fits = (count: number): boolean =>
    together(task, count, wholeMinutes(task, count, crew), crew);
  if (heads.some(fits)) return null;
  const most = heads[heads.length - 1];
  const shortest = wholeMinutes(task, most, crew);
  const longest = longestSpan(task, crew);
  const hands = most === 1 ? 'one builder' : `${String(most)} builders`;
  const piece = task.breaks === 'observed' ? 'stretch without a break' : 'shift';
  if (longest >= shortest) {
    return fault(
      'yard.crew',
      jobPath(yard, task.jobId),
      `${taskWords(yard, task)} takes ${duration(shortest)} in one piece with ${hands}, but so many with ${skillName(yard, task.skill ?? '')} are never at work together for so long`,
      { value: task.id },
    );
  }
  return fault(
    'yard.shift',
    jobPath(yard, task.jobId),
    `${taskWords(yard, task)} takes ${duration(shortest)} in one piece even with ${hands}; the longest ${piece} of anyone with ${skillName(yard, task.skill ?? '')} is ${duration(longest)}`,
    { value: task.id },
  );
}

function setFault(yard: Yard, task: Task, crew: Crew): Fault | null {
  const able = new Set(ableFor(task, crew).map((builder) => crew.builders[builder].id));
  const unfit = task.crew.filter((person) => !able.has(person));
  if (unfit.length === 0) return null;
  return fault(
    'yard.skill',
    jobPath(yard, task.jobId),
    `${taskWords(yard, task)} is set for ${unfit.join(', ')}, without ${skillName(yard, task.skill ?? '')} at level ${String(task.minLevel)}`,
    { value: unfit, cure: 'Set somebody who has the skill.' },
  );
}

function taskFault(yard: Yard, task: Task, site: Site): Fault | null {
  const { crew, places } = site;
  if (task.skill === null) return null;
  const { skill } = task;
  const builders = ableFor(task, crew);
  const able = builders.length;
  const level = task.minLevel > 1 ? ` at level ${String(task.minLevel)} or above` : '';
  const where = stepPath(yard, task);
  if (able === 0) {
    return fault(
      'yard.skill',
      where,
      `${taskWords(yard, task)} needs ${skillName(yard, skill)}${level}, which no builder has`,
      {
        value: skill,
      },
    );
  }
  if (builders.every((builder) => crew.learns(builder, skill))) {
    return fault(
      'yard.skill',
      where,
      `${taskWords(yard, task)} needs ${skillName(yard, skill)}, which only learners have`,
      { value: skill, cure: 'Give the skill to a builder at a higher level.' },
    );
  }
  if (task.crew.length > 0) {
    const unfit = setFault(yard, task, crew);
    if (unfit !== null) return unfit;
  }
  const heads = headCounts(task, site);
  if (heads.length === 0) {
    const wanted = Math.max(task.crew.length, task.crewMin);
    const place = places.roomOf.get(task.space);
    const room = place === undefined ? Infinity : mostOf(places.resources[place]);
    const why =
      able < wanted
        ? `${String(able)} ${able === 1 ? 'has' : 'have'} ${skillName(yard, skill)}${level}`
        : `${spaceName(yard, task.space)} has room for ${String(room)}`;
    return fault(
      'yard.crew',
      where,
      `${taskWords(yard, task)} needs ${String(wanted)} builders; ${why}`,
      { value: wanted },
    );
  }
  return task.splittable ? null : pieceFault(yard, task, heads, site);
}

/** Tasks that no crew of the yard can ever do: yard.skill, yard.crew, yard.shift. */
export function crewFaults(
  yard: Yard,
  tasks: readonly Task[],
  begun: ReadonlyMap<string, Begun>,
  site: Site,
): Fault[] {
  return tasks.flatMap((task) => (begun.has(task.id) ? [] : (taskFault(yard, task, site) ?? [])));
}
