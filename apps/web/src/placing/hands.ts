import type { Schema } from '../api/client.ts';

/** Who there is to choose from. */
export interface Hand {
  readonly id: string;
  readonly name: string;
  readonly isAble: boolean;
}

/** Builders, those first who may do the task. */
export const handsFor = (
  { skill, minLevel }: Pick<Schema<'Task'>, 'skill' | 'minLevel'>,
  people: readonly Pick<Schema<'Person'>, 'id' | 'name' | 'roles' | 'abilities'>[],
): Hand[] =>
  people
    .filter(({ roles }) => roles.includes('builder'))
    .map(({ id, name, abilities }) => ({
      id,
      name,
      isAble: abilities.some((one) => one.skill === skill && one.level >= minLevel),
    }))
    .sort((a, b) => Number(b.isAble) - Number(a.isAble) || a.name.localeCompare(b.name));
