import { DomainError } from '#kernel/error.ts';
import { workOfJobs } from '#live/edits/new-work.ts';
import { loadPinnedYard } from '#persistence/workload/pinned.ts';
import { loadWorkload, lockWork, saveTasks } from '#persistence/workload/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { resize } from '#planning/workload/resize.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Tx } from '../../platform/database/database.ts';

/** Makes the tasks of jobs that have none yet; the tasks of the others stay as they are. Returns how many. */
export async function makeTasks(tx: Tx, yardId: string): Promise<number> {
  await lockWork(tx, yardId);
  const stored = await loadWorkload(tx, yardId);
  const yard = await loadPinnedYard(tx, yardId);
  // Of all that ever had tasks: what was dropped of a job is not made again.
  const made = await tx.task.findMany({
    where: { yardId },
    distinct: ['jobId'],
    select: { jobId: true },
  });
  const known = new Set(made.map(({ jobId }) => jobId));
  const { tasks, links, choices } = workOfJobs(yard, stored, withoutTasks(yard, known));
  await saveTasks(tx, yardId, {
    tasks: [...stored.tasks, ...tasks],
    links: [...stored.links, ...links],
    choices: [...stored.choices, ...choices],
  });
  return tasks.length;
}

function withoutTasks({ boats }: Yard, known: ReadonlySet<string>): ReadonlySet<string> {
  const parts = boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts));
  const jobs = parts.flatMap((part) => part.jobs.map(({ id }) => id));
  return new Set(jobs.filter((id) => !known.has(id)));
}

/**
 * Gives the part's tasks that nobody has begun the size and the place that the part now has.
 * Returns how many changed.
 */
export async function resizeTasks(tx: Tx, yardId: string, partId: string): Promise<number> {
  await lockWork(tx, yardId);
  const stored = await loadWorkload(tx, yardId);
  const yard = await loadPinnedYard(tx, yardId);
  const spaceOf = new Map(makeWorkload(yard).tasks.map(({ id, space }) => [id, space]));
  const tasks = resize(stored.tasks, yard, partId).map((task) =>
    task.partId === partId && task.state === 'waiting'
      ? { ...task, space: spaceOf.get(task.id) ?? task.space }
      : task,
  );
  await saveTasks(tx, yardId, { ...stored, tasks });
  return tasks.filter((task, i) => {
    const old = stored.tasks[i];
    return old.workMinutes !== task.workMinutes || old.space !== task.space;
  }).length;
}

/** Takes a job's tasks away, as long as nobody has begun or claimed one. */
export async function removeTasks(tx: Tx, yardId: string, jobId: string): Promise<void> {
  await lockWork(tx, yardId);
  const stored = await loadWorkload(tx, yardId);
  const gone = stored.tasks.filter((task) => task.jobId === jobId);
  const begun = gone.find(({ state }) => state !== 'waiting');
  if (begun) throw new DomainError('record.in-use', `"${begun.name}" of this job has begun.`);
  const ids = new Set(gone.map(({ id }) => id));
  const claim = await tx.claim.findFirst({ where: { yardId, taskId: { in: [...ids] } } });
  if (claim) throw new DomainError('record.in-use', 'Somebody has claimed work of this job.');
  await saveTasks(tx, yardId, {
    tasks: stored.tasks.filter(({ id }) => !ids.has(id)),
    links: stored.links.filter(({ from, to }) => !ids.has(from) && !ids.has(to)),
    choices: stored.choices.filter((choice) => !tasksOf(choice).some((id) => ids.has(id))),
  });
}

const tasksOf = (choice: Workload['choices'][number]): string[] =>
  choice.branches.flatMap(({ tasks }) => tasks);
