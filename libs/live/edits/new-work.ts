import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { bypass, linksInBranches } from './bypass.ts';

/** Those that do a task again, or those that do these again; the task itself where it counts. */
function latest(task: Task, tasks: readonly Task[]): Task[] {
  if (task.state !== 'redo') return [task];
  return tasks
    .filter(({ replaces }) => replaces === task.id)
    .flatMap((again) => latest(again, tasks));
}

/** A link out of a task that a rework does again comes from what does it again. */
function fromLatest(link: TaskLink, before: Workload): TaskLink[] {
  const from = before.tasks.find(({ id }) => id === link.from);
  if (from?.state !== 'redo') return [link];
  return latest(from, before.tasks).map(({ id }) => ({
    ...link,
    id: `${id}..${link.to}`,
    from: id,
  }));
}

/**
 * The work of jobs that have none yet, as their procedures have it: after the jobs they come after,
 * also where some tasks of those were dropped or are done again. `yard` has the jobs, and all that they
 * come after; `before` is the work there is.
 */
export function workOfJobs(yard: Yard, before: Workload, jobs: ReadonlySet<string>): Workload {
  const all = makeWorkload(yard);
  const isNew = new Set(all.tasks.filter(({ jobId }) => jobs.has(jobId)).map(({ id }) => id));
  const stored = new Set(before.tasks.map(({ id }) => id));
  const gone = all.tasks.map(({ id }) => id).filter((id) => !isNew.has(id) && !stored.has(id));
  const tasks = new Map(all.tasks.map((task) => [task.id, task]));
  const { kept, made } = bypass(all.links, new Set(gone), tasks, linksInBranches(all));
  const links = [...kept, ...made.map(({ link }) => link)]
    .filter(({ from, to }) => isNew.has(from) || isNew.has(to))
    .flatMap((link) => fromLatest(link, before));
  const mine = new Set([...isNew, ...links.map(({ id }) => id)]);
  return {
    tasks: all.tasks.filter(({ id }) => isNew.has(id)),
    links,
    choices: all.choices.filter(({ branches }) =>
      branches.some((branch) => [...branch.tasks, ...branch.links].some((id) => mine.has(id))),
    ),
  };
}
