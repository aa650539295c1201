import type {
  Task,
  TaskChoice,
  TaskHold,
  TaskHoldEnd,
  TaskLink,
  Workload,
} from '#planning/workload/workload.ts';
import type { Part } from '#planning/yard/boats.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { workMinutes } from '#planning/workload/size.ts';
import { portionOf, type Extent } from './extent.ts';
import { isWet, stepOf } from './films.ts';
import { markOf } from './rework.ts';

/** Work that is done again, under its new ids. */
export interface Copies {
  readonly tasks: readonly Task[];
  readonly links: readonly TaskLink[];
  readonly choices: readonly TaskChoice[];
  /** New id of a task that is done again. */
  readonly idOf: ReadonlyMap<string, string>;
  /** Tasks that another task done again leads to. */
  readonly follows: ReadonlySet<string>;
}

/** The task that a chain of reworks began with: its id is what theirs are made from. */
export function rootOf(task: Task, tasks: ReadonlyMap<string, Task>): string {
  let at = task;
  for (let next = at; next.replaces !== null;) {
    const found = tasks.get(next.replaces);
    if (found === undefined) return next.replaces;
    next = found;
    at = found;
  }
  return at.id;
}

/** A choice that was made between two tasks that are both done again is made again. */
function choicesAgain(workload: Workload, again: ReadonlySet<string>): TaskChoice[] {
  return workload.choices.filter(({ branches }) => {
    const within = new Set(branches.flatMap(({ tasks }) => tasks));
    const held = new Set(branches.flatMap(({ links }) => links));
    const touching = workload.links.filter(
      ({ id, from, to }) => held.has(id) || within.has(from) || within.has(to),
    );
    const inside = (id: string): boolean => again.has(id) && !within.has(id);
    return touching.some(({ from }) => inside(from)) && touching.some(({ to }) => inside(to));
  });
}

interface Site {
  readonly yard: Yard;
  readonly workload: Workload;
  readonly part: Part;
  /** Where the part is now. */
  readonly space: string;
  readonly extent: Extent;
  readonly reworkId: string;
}

function holdsAgain(task: Task, idOf: ReadonlyMap<string, string>, site: Site): TaskHold[] {
  const waits = new Set(
    site.workload.tasks.filter(({ state }) => state === 'waiting').map(({ id }) => id),
  );
  return task.holds.flatMap((hold) => {
    const until = hold.until.flatMap((end): TaskHoldEnd[] => {
      if (end.kind !== 'task') return [end];
      const again = idOf.get(end.task);
      if (again !== undefined) return [{ ...end, task: again }];
      return waits.has(end.task) ? [end] : [];
    });
    return until.length === 0 ? [] : [{ ...hold, until }];
  });
}

/** So much of the part: what a step is sized by. */
const shareOf = (part: Part, portion: number): Part => ({
  ...part,
  areaM2: part.areaM2 * portion,
  edgeM: part.edgeM * portion,
  jointM: part.jointM * portion,
});

function minutesAgain(task: Task, portion: number, { yard, part }: Site): number {
  if (task.crewMax === 0) return 0;
  if (portion === task.portion) return task.workMinutes;
  const step = stepOf(yard, task);
  if (step !== undefined) return workMinutes(step.effort, shareOf(part, portion));
  return Math.max(1, Math.ceil((task.workMinutes * portion) / task.portion - 1e-6));
}

function taskAgain(
  task: Task,
  portion: number,
  idOf: ReadonlyMap<string, string>,
  site: Site,
): Task {
  const waiting = new Set(
    site.workload.tasks.filter(({ state }) => state === 'waiting').map(({ id }) => id),
  );
  return {
    ...task,
    id: idOf.get(task.id) ?? task.id,
    workMinutes: minutesAgain(task, portion, site),
    consumes: task.consumes.map(({ stock, amount }) => ({
      stock,
      amount: (amount * portion) / task.portion,
    })),
    price: Math.round((task.price * portion) / task.portion),
    space: task.parts.length === 0 ? task.space : site.space,
    movesTo: null,
    holds: holdsAgain(task, idOf, site),
    coveredBy: task.coveredBy.flatMap((id) => idOf.get(id) ?? (waiting.has(id) ? [id] : [])),
    state: 'waiting',
    startedAt: null,
    finishedAt: null,
    crew: [],
    fixedStart: null,
    leftMinutes: null,
    rework: site.reworkId,
    replaces: task.id,
    portion,
  };
}

/** Tasks that are done again, with the links and choices among them; those before and after are others' matter. */
export function copiesOf(again: readonly Task[], site: Site): Copies {
  const { workload, reworkId, part, extent } = site;
  const mark = markOf(reworkId);
  const done = new Set(again.map(({ id }) => id));
  const choices = choicesAgain(workload, done);
  const optional = new Set(
    choices.flatMap(({ branches }) => branches.flatMap(({ tasks }) => tasks)),
  );
  const all = workload.tasks.filter(({ id }) => done.has(id) || optional.has(id));
  const byId = new Map(workload.tasks.map((task) => [task.id, task]));
  const idOf = new Map(all.map((task) => [task.id, `${rootOf(task, byId)}.again-${mark}`]));
  const first = again.find(isWet) ?? again.at(0);
  const dryPortion = first === undefined ? 1 : portionOf(extent, first, part);
  const inner = workload.links.filter(({ from, to }) => idOf.has(from) && idOf.has(to));
  const linkId = (id: string): string => `${id}.again-${mark}`;
  const kept = new Set(inner.map(({ id }) => id));
  return {
    tasks: all.map((task) =>
      taskAgain(task, isWet(task) ? portionOf(extent, task, part) : dryPortion, idOf, site),
    ),
    links: inner.map((link) => ({
      ...link,
      id: linkId(link.id),
      from: idOf.get(link.from) ?? link.from,
      to: idOf.get(link.to) ?? link.to,
    })),
    choices: choices.map((choice) => ({
      ...choice,
      id: `${choice.id}.again-${mark}`,
      branches: choice.branches.map((branch) => ({
        ...branch,
        tasks: branch.tasks.flatMap((id) => idOf.get(id) ?? []),
        links: branch.links.filter((id) => kept.has(id)).map(linkId),
      })),
    })),
    idOf,
    follows: new Set(inner.filter(({ opens }) => opens !== null).map(({ to }) => to)),
  };
}
