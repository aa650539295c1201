import { z } from 'zod';
import type { Task, Workload } from '#planning/workload/workload.ts';

const taskId = z.string();
const minutes = z.number();

/**
 * What edits do to the work that is left: what is priced, and what has to be so still when somebody
 * says yes. Minutes are builder-minutes at the nominal rate.
 */
export const effectSchema = z.object({
  added: z.array(z.object({ taskId, minutes })),
  dropped: z.array(z.object({ taskId, minutes })),
  redo: z.array(z.object({ taskId })),
  resized: z.array(z.object({ taskId, from: minutes, to: minutes })),
});
export type Effect = z.output<typeof effectSchema>;

/** Two workloads compared, task by task. */
export function effectOf(before: Workload, after: Workload): Effect {
  const old = new Map(before.tasks.map((task) => [task.id, task]));
  const now = new Map(after.tasks.map((task) => [task.id, task]));
  const sized = ({ id, workMinutes }: Task): Effect['added'][number] => ({
    taskId: id,
    minutes: workMinutes,
  });
  const both = after.tasks.flatMap((task) => {
    const was = old.get(task.id);
    return was === undefined ? [] : [{ task, was }];
  });
  return {
    added: after.tasks.filter(({ id }) => !old.has(id)).map(sized),
    dropped: before.tasks.filter(({ id }) => !now.has(id)).map(sized),
    redo: both
      .filter(({ task, was }) => task.state === 'redo' && was.state !== 'redo')
      .map(({ task }) => ({ taskId: task.id })),
    resized: both
      .filter(
        ({ task, was }) =>
          task.workMinutes !== was.workMinutes || !sameConsumption(task.consumes, was.consumes),
      )
      .map(({ task, was }) => ({ taskId: task.id, from: was.workMinutes, to: task.workMinutes })),
  };
}

const sameConsumption = (a: Task['consumes'], b: Task['consumes']): boolean =>
  a.length === b.length &&
  a.every(({ stock, amount }, k) => stock === b[k].stock && amount === b[k].amount);

/** Whether two effects are one, however they were stored in between. */
export const sameEffect = (a: Effect, b: Effect): boolean =>
  JSON.stringify(effectSchema.parse(a)) === JSON.stringify(effectSchema.parse(b));
