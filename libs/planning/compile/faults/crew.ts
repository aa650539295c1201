import { fault, type Fault } from '#kernel/error.ts';
import type { Interval } from '#scheduling/model/problem.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { ableFor, headCounts, minutesWith, type Site } from '../work/activities.ts';
import { once } from '../once.ts';
import { mostOf } from '../site/places.ts';
import { unbroken, type Crew } from '../site/crew.ts';
import type { Begun } from '../work/frozen.ts';
import { duration, jobPath, skillName, spaceName, stepPath, taskWords } from '../trace/rows.ts';

type Stretches = readonly Interval[];

/** Stretches of one piece of everyone who may be on a task, by start. */
const stretchesOf = (task: Task, crew: Crew): Stretches =>
  ableFor(task, crew)
    .flatMap((builder) => unbroken(crew.calendars[crew.builders[builder].calendar], task.breaks))
    .sort((a, b) => a.start - b.start);

/**
 * The longest time for which so many are ever at work together in one piece: it can be thought to
 * begin where one of them begins, and lasts as the last but so many of the ends then known.
 * -Infinity where there are not so many stretches.
 */
function longestTogether(stretches: Stretches, heads: number): number {
  /** The latest ends so far, ascending, at most one for each head. */
  const ends: number[] = [];
  let longest = -Infinity;
  for (const { start, end } of stretches) {
    let k = ends.length;
    ends.push(end);
    for (; k > 0 && ends[k - 1] > end; k -= 1) ends[k] = ends[k - 1];
    ends[k] = end;
    if (ends.length > heads) ends.shift();
    if (ends.length === heads) longest = Math.max(longest, ends[0] - start);
  }
  return longest;
}

/** How long people are ever at work together in one piece, found once for all tasks of the same people. */
interface Company {
  longest(task: Task, heads: number): number;
}

function companyOf(crew: Crew): Company {
  const stretches = new Map<string, Stretches>();
  const longest = new Map<string, number>();
  return {
    longest: (task, heads) => {
      const who = `${task.skill ?? ''}/${String(task.minLevel)}/${task.breaks}`;
      return once(longest, `${who}/${String(heads)}`, () =>
        longestTogether(
          once(stretches, who, () => stretchesOf(task, crew)),
          heads,
        ),
      );
    },
  };
}

/** In one piece with its clean-down. */
const wholeMinutes = (task: Task, heads: number, crew: Crew): number =>
  minutesWith(task, heads, crew, 'quickest') + task.cleanDownMinutes;

function pieceFault(
  yard: Yard,
  task: Task,
  heads: readonly number[],
  { crew }: Site,
  company: Company,
): Fault | null {
  const fits = (count: number): boolean =>
    company.longest(task, count) >= wholeMinutes(task, count, crew);
  if (heads.some(fits)) return null;
  const most = heads[heads.length - 1];
  const shortest = wholeMinutes(task, most, crew);
  const longest = Math.max(0, company.longest(task, 1));
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

function taskFault(yard: Yard, task: Task, site: Site, company: Company): Fault | null {
  const { crew, places } = site;
  if (task.skill === null) return null;
  const { skill } = task;
  const builders = ableFor(task, crew);
  const able = builders.length;
  const level = task.minLevel > 1 ? ` at level ${String(task.minLevel)} or above` : '';
  if (able === 0) {
    return fault(
      'yard.skill',
      stepPath(yard, task),
      `${taskWords(yard, task)} needs ${skillName(yard, skill)}${level}, which no builder has`,
      {
        value: skill,
      },
    );
  }
  if (builders.every((builder) => crew.learns(builder, skill))) {
    return fault(
      'yard.skill',
      stepPath(yard, task),
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
      stepPath(yard, task),
      `${taskWords(yard, task)} needs ${String(wanted)} builders; ${why}`,
      { value: wanted },
    );
  }
  return task.splittable ? null : pieceFault(yard, task, heads, site, company);
}

/** Tasks that no crew of the yard can ever do: yard.skill, yard.crew, yard.shift. */
export function crewFaults(
  yard: Yard,
  tasks: readonly Task[],
  begun: ReadonlyMap<string, Begun>,
  site: Site,
): Fault[] {
  const company = companyOf(site.crew);
  return tasks.flatMap((task) =>
    begun.has(task.id) ? [] : (taskFault(yard, task, site, company) ?? []),
  );
}
