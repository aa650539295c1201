import { DomainError } from '#kernel/error.ts';
import { loadWorkload, lockWork, saveTasks } from '#persistence/workload/store.ts';
import { toProcedure } from '#persistence/yard/procedures.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { resize } from '#planning/workload/resize.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Tx } from '../../platform/database/database.ts';

/** Makes the tasks of jobs that have none yet; the tasks of the others stay as they are. Returns how many. */
export async function makeTasks(tx: Tx, yardId: string): Promise<number> {
  await lockWork(tx, yardId);
  const stored = await loadWorkload(tx, yardId);
  const fresh = makeWorkload(await pinnedYard(tx, yardId));
  const begun = new Set(stored.tasks.map(({ jobId }) => jobId));
  const tasks = fresh.tasks.filter(({ jobId }) => !begun.has(jobId));
  const isNew = new Set(tasks.map(({ id }) => id));
  await saveTasks(tx, yardId, {
    tasks: [...stored.tasks, ...tasks],
    links: [
      ...stored.links,
      ...fresh.links.filter(({ from, to }) => isNew.has(from) || isNew.has(to)),
    ],
    choices: [
      ...stored.choices,
      ...fresh.choices.filter((choice) => tasksOf(choice).some((id) => isNew.has(id))),
    ],
  });
  return tasks.length;
}

/**
 * Gives the part's tasks that nobody has begun the size and the place that the part now has.
 * Returns how many changed.
 */
export async function resizeTasks(tx: Tx, yardId: string, partId: string): Promise<number> {
  await lockWork(tx, yardId);
  const stored = await loadWorkload(tx, yardId);
  const yard = await pinnedYard(tx, yardId);
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

/**
 * The yard in which each job has the very version of the procedure that its tasks were made
 * from: a newer one must not size them. `@` is no character of an id, so no name is taken.
 */
async function pinnedYard(tx: Tx, yardId: string): Promise<Yard> {
  const yard = await loadYard(tx, yardId);
  const jobs = await tx.job.findMany({ where: { yardId } });
  const versions = await tx.procedure.findMany({ where: { yardId, jobs: { some: {} } } });
  const pinned = new Map(
    jobs.map((job) => [job.id, `${job.procedureId}@${String(job.procedureVersion)}`]),
  );
  return {
    ...yard,
    procedures: versions.map((row) => ({
      ...toProcedure(row),
      id: `${row.id}@${String(row.version)}`,
    })),
    boats: yard.boats.map((boat) => ({
      ...boat,
      refits: boat.refits.map((refit) => ({
        ...refit,
        parts: refit.parts.map((part) => ({
          ...part,
          jobs: part.jobs.map((job) => ({
            ...job,
            procedure: pinned.get(job.id) ?? job.procedure,
          })),
        })),
      })),
    })),
  };
}
