import type { Yard } from '../yard/yard.ts';
import type { Task, Workload } from './workload.ts';

/**
 * Whole builder-minutes, rounded up. The margin is for binary fractions: 30 minutes at 110 % are 33,
 * not the 33.00000000000001 of the product.
 */
const percentOf = (minutes: number, percent: number): number =>
  Math.ceil((minutes * percent) / 100 - 1e-6);

/** The work of a task where it is done, by a space's `workPercent`. A hold point stays one. */
function placed(task: Task, percent: number): Task {
  if (percent === 100 || task.skill === null) return task;
  return {
    ...task,
    workMinutes: Math.max(1, percentOf(task.workMinutes, percent)),
    leftMinutes: task.leftMinutes === null ? null : percentOf(task.leftMinutes, percent),
  };
}

/**
 * The work as it is where it is done: tasks keep what their steps say of them, and take longer or
 * less in spaces that ask for it. The same workload where none does.
 */
export function inTheirSpaces<W extends Pick<Workload, 'tasks'>>(
  { spaces }: Pick<Yard, 'spaces'>,
  workload: W,
): W {
  const percents = new Map(spaces.map(({ id, workPercent }) => [id, workPercent]));
  if (spaces.every(({ workPercent }) => workPercent === 100)) return workload;
  return {
    ...workload,
    tasks: workload.tasks.map((task) => placed(task, percents.get(task.space) ?? 100)),
  };
}
