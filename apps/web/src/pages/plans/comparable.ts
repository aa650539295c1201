import type { Schema } from '../../api/client.ts';

/** What is looked at of a plan. */
export interface Costed {
  readonly tasks: readonly Pick<Schema<'PlanTask'>, 'id' | 'state'>[];
  readonly choices: readonly Pick<Schema<'PlanChoice'>, 'id' | 'branch'>[];
}

const same = (a: readonly string[], b: readonly string[]): boolean => {
  const there = new Set(b);
  return a.length === there.size && a.every((id) => there.has(id));
};

/**
 * Why the money of two plans says nothing held against each other, for each is of what was left to do
 * when it was made: `begun`, work was begun or done between them; `work`, other work is to be done. Null:
 * nothing is in the way.
 */
export function notComparable(now: Costed, before: Costed): 'begun' | 'work' | null {
  const begun = ({ tasks }: Costed): string[] =>
    tasks.filter(({ state }) => state !== 'waiting').map(({ id }) => id);
  if (!same(begun(now), begun(before))) return 'begun';
  const ids = (values: readonly { readonly id: string }[]): string[] => values.map(({ id }) => id);
  if (!same(ids(now.choices), ids(before.choices))) return 'work';
  // Another way to do the same has other tasks.
  const taken = new Map(before.choices.map(({ id, branch }) => [id, branch]));
  if (now.choices.some(({ id, branch }) => taken.get(id) !== branch)) return null;
  return same(ids(now.tasks), ids(before.tasks)) ? null : 'work';
}
