import type { Yard } from '../yard/yard.ts';
import { sized, workMinutes } from './size.ts';
import type { Task } from './workload.ts';

/**
 * The tasks after a part's areas and lengths changed: the part's tasks that nobody has
 * begun get the size of their step anew, all others stay as they are. A task whose step
 * the yard's procedure no longer has keeps its size.
 */
export function resize(tasks: readonly Task[], yard: Yard, partId: string): Task[] {
  const part = yard.boats
    .flatMap((boat) => boat.refits)
    .flatMap((refit) => refit.parts)
    .find(({ id }) => id === partId);
  if (part === undefined) return [...tasks];
  const procedureOfJob = new Map(part.jobs.map((job) => [job.id, job.procedure]));
  return tasks.map((task) => {
    // A rework is of the area at fault, whatever the size of the part.
    if (task.partId !== partId || task.state !== 'waiting' || task.rework !== null) return task;
    const procedure = yard.procedures.find(({ id }) => id === procedureOfJob.get(task.jobId));
    const step = procedure?.steps.find(({ id }) => id === task.stepId);
    if (step === undefined || step.crewMax === 0) return task;
    return {
      ...task,
      workMinutes: workMinutes(step.effort, part),
      consumes: step.consumes.map((one) => ({ stock: one.stock, amount: sized(one, part) })),
    };
  });
}
