import { DomainError } from '#kernel/error.ts';
import { resize } from '#planning/workload/resize.ts';
import type { Task, TaskHold, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { bypass, linksInBranches } from './bypass.ts';
import { choicesWithout, linksForBranches } from './choices.ts';
import type { WorkEdits } from './edits.ts';
import { withParts, workOfParts } from './parts.ts';
import { assertSound } from './sound.ts';

export interface Edited {
  readonly yard: Yard;
  readonly workload: Workload;
}

/**
 * The yard and its work after the edits, as `saveEdits` stores them. What has begun keeps its state,
 * times, people and size; what is dropped leaves the order between its neighbours; what is new comes
 * after what was there. The jobs of `yard` name the versions of procedures that they were made from
 * (`loadForEdits`), or parts are sized by the current ones.
 *
 * Throws `record.missing` where edits name what is not there, `record.exists` where they add what is,
 * `record.in-use` where they drop what has begun or do again what is not done, `yard.cycle` where
 * tasks would wait for each other.
 */
export function applyEdits(yard: Yard, workload: Workload, edits: WorkEdits): Edited {
  const changed = withParts(yard, edits);
  const byId = new Map(workload.tasks.map((task) => [task.id, task]));
  const redo = redone(byId, edits);
  const sized = edits.resize.reduce<readonly Task[]>(
    (tasks, { partId }) => resize(tasks, changed, partId),
    workload.tasks,
  );
  const made = workOfParts(changed, workload, edits.addParts);
  const all = [...sized, ...edits.addTasks, ...made.tasks];
  const gone = dropped(byId, edits);
  const removed = new Set(edits.removeLinks);
  const links = [
    ...workload.links.filter(({ id }) => !removed.has(id)),
    ...edits.addLinks,
    ...made.links,
  ];
  const tasks = new Map(all.map((task) => [task.id, task]));
  const inBranches = linksInBranches({
    choices: [...workload.choices, ...edits.addChoices, ...made.choices],
  });
  const around = bypass(links, gone, tasks, inBranches);
  const left = new Set(around.kept.map(({ id }) => id));
  const chosen = choicesWithout(workload.choices, {
    gone,
    links: left,
    made: around.made.filter(isOpen(byId)),
    given: linksForBranches(workload.choices, edits.branchLinks),
  });
  const after: Workload = {
    tasks: all
      .filter(({ id }) => !gone.has(id))
      .map((task) => withoutGone(redo.has(task.id) ? { ...task, state: 'redo' } : task, gone))
      .map((task) => covered(task, edits)),
    links: [...around.kept, ...chosen.made],
    choices: [...chosen.choices, ...edits.addChoices, ...made.choices],
  };
  assertSound(workload, after);
  return { yard: changed, workload: after };
}

/** Only what waits to be covered can be covered by something else. */
function covered(task: Task, { covers }: WorkEdits): Task {
  const by = covers.filter((one) => one.task === task.id).map((one) => one.by);
  if (by.length === 0 || task.coveredBy.length === 0) return task;
  return { ...task, coveredBy: [...task.coveredBy, ...by] };
}

/** Of an order into what has begun nothing is left to decide. */
const isOpen =
  (tasks: ReadonlyMap<string, Task>) =>
  ({ link }: { readonly link: TaskLink }): boolean => {
    const state = tasks.get(link.to)?.state ?? 'waiting';
    return state === 'waiting' || state === 'paused';
  };

function known(tasks: ReadonlyMap<string, Task>, id: string): Task {
  const task = tasks.get(id);
  if (task === undefined) throw new DomainError('record.missing', `There is no task "${id}".`);
  return task;
}

function redone(tasks: ReadonlyMap<string, Task>, { redo }: WorkEdits): ReadonlySet<string> {
  for (const id of redo) {
    const { state, name } = known(tasks, id);
    if (state === 'done' || state === 'redo') continue;
    throw new DomainError(
      'record.in-use',
      `"${name}" is ${state}, so there is nothing to do again.`,
    );
  }
  return new Set(redo);
}

/** Those named, and all that waits of the parts named. */
function dropped(tasks: ReadonlyMap<string, Task>, edits: WorkEdits): ReadonlySet<string> {
  for (const id of edits.drop) {
    const { state, name } = known(tasks, id);
    if (state === 'waiting') continue;
    throw new DomainError('record.in-use', `"${name}" is ${state}, so it cannot be dropped.`);
  }
  const parts = new Set(edits.dropParts);
  const ofParts = [...tasks.values()].filter(
    ({ partId, state }) => state === 'waiting' && parts.has(partId),
  );
  return new Set([...edits.drop, ...ofParts.map(({ id }) => id)]);
}

/** What is kept until a task that is gone, or covered by it, is not any more: of begun work too. */
function withoutGone(task: Task, gone: ReadonlySet<string>): Task {
  const holds = task.holds.some(({ until }) => until.some((end) => endsWith(end, gone)));
  const covers = task.coveredBy.some((id) => gone.has(id));
  if (!holds && !covers) return task;
  return {
    ...task,
    holds: task.holds.map((hold) => freed(hold, gone)),
    coveredBy: task.coveredBy.filter((id) => !gone.has(id)),
  };
}

const endsWith = (end: TaskHold['until'][number], gone: ReadonlySet<string>): boolean =>
  end.kind === 'task' && gone.has(end.task);

/** A hold with no other end is over with the task itself. */
function freed(hold: TaskHold, gone: ReadonlySet<string>): TaskHold {
  const until = hold.until.filter((end) => !endsWith(end, gone));
  if (until.length === hold.until.length) return hold;
  return { ...hold, until: until.length > 0 ? until : [{ kind: 'after', minutes: 0 }] };
}
