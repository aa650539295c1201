import type { Schema } from '../../api/client.ts';

type Task = Pick<Schema<'PlanTask'>, 'id' | 'jobId' | 'stepId' | 'state'>;

/** What is looked at of a plan. */
export interface Costed {
  readonly tasks: readonly Task[];
  readonly choices: readonly Pick<Schema<'PlanChoice'>, 'id' | 'branch'>[];
}

const same = (a: readonly string[], b: readonly string[]): boolean => {
  const there = new Set(b);
  return a.length === there.size && a.every((id) => there.has(id));
};

const ids = (values: readonly { readonly id: string }[]): string[] => values.map(({ id }) => id);

/** Whether a task is of the procedure that leaves one of the choices open: no rework's, which has its own. */
const isOf =
  (choices: readonly { readonly id: string }[]) =>
  ({ id, jobId, stepId }: Task): boolean =>
    id === `${jobId}.${stepId}` && choices.some((choice) => choice.id.startsWith(`${jobId}.`));

/**
 * Why the money of two plans says nothing held against each other, for each is of what was left to do
 * when it was made: `begun`, work was begun or done between them; `paused`, work is put aside, and what
 * was left of it the plans do not say; `work`, other work is to be done. Null: nothing is in the way.
 */
export function notComparable(now: Costed, before: Costed): 'begun' | 'paused' | 'work' | null {
  const begun = ({ tasks }: Costed): string[] =>
    ids(tasks.filter(({ state }) => state !== 'waiting'));
  if (!same(begun(now), begun(before))) return 'begun';
  // Begun work costs nothing any more, but put aside it costs what is left of it.
  if ([...now.tasks, ...before.tasks].some(({ state }) => state === 'paused')) return 'paused';
  if (!same(ids(now.choices), ids(before.choices))) return 'work';
  // Another way to do the same has other tasks.
  const taken = new Map(before.choices.map(({ id, branch }) => [id, branch]));
  const isOther = isOf(now.choices.filter(({ id, branch }) => taken.get(id) !== branch));
  const kept = ({ tasks }: Costed): string[] => ids(tasks.filter((task) => !isOther(task)));
  return same(kept(now), kept(before)) ? null : 'work';
}
