import type { Task } from './workload.ts';

/** Done, whether it still counts or a rework does it again. */
export const isOver = ({ state }: Pick<Task, 'state'>): boolean =>
  state === 'done' || state === 'redo';

/** There is something of it to be planned: it has not begun, or was put aside. */
export const isToPlan = ({ state }: Pick<Task, 'state'>): boolean =>
  state === 'waiting' || state === 'paused';

/**
 * What is to be planned of a task: of paused work the rest, by whoever holds it. It has taken from
 * the stocks and been paid for what it was begun with, and the start that the foreman wanted is past.
 */
export function restOf(task: Task): Task {
  if (task.state !== 'paused') return task;
  const { workMinutes, floorMinutes } = task;
  // Nothing left is still somebody's look at it: work of no length would need nobody.
  const left = Math.max(1, task.leftMinutes ?? workMinutes);
  const share = workMinutes > 0 ? Math.min(1, left / workMinutes) : 1;
  return {
    ...task,
    workMinutes: left,
    floorMinutes: Math.ceil(floorMinutes * share),
    consumes: [],
    price: 0,
    fixedStart: null,
  };
}
