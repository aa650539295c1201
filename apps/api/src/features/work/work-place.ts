import { DomainError } from '#kernel/error.ts';
import { untouched, type TaskLife } from '#live/life/life.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import type { Task } from '#planning/workload/workload.ts';

/** A yard as it is, and a task of it that something is reported of. */
export interface WorkPlace {
  readonly state: YardState;
  readonly task: Task;
  readonly life: TaskLife;
}

/** Throws `record.missing`; a task that was dropped is none. */
export function placeOf(state: YardState, taskId: string): WorkPlace {
  const task = state.workload.tasks.find(({ id }) => id === taskId);
  if (!task) throw new DomainError('record.missing', `There is no task "${taskId}".`);
  return { state, task, life: lifeOf(state, task) };
}

export const lifeOf = ({ lives }: Pick<YardState, 'lives'>, { id, crew }: Task): TaskLife =>
  lives.get(id) ?? untouched(crew);

export const nameIn =
  ({ yard }: Pick<YardState, 'yard'>) =>
  (member: string): string =>
    yard.people.find(({ id }) => id === member)?.name ?? member;
