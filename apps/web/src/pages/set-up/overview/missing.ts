import type { Schema } from '../../../api/client.ts';
import type { Room } from '../room.ts';

export interface Beginnings {
  readonly people: readonly Pick<Schema<'Person'>, 'name' | 'roles' | 'shifts' | 'abilities'>[];
  readonly spaces: readonly unknown[];
  readonly procedures: readonly {
    readonly steps: readonly { readonly skill?: string | null }[];
  }[];
  readonly skills: readonly Pick<Schema<'Skill'>, 'id' | 'name'>[];
  readonly boats: readonly {
    readonly refits: readonly {
      readonly parts: readonly { readonly jobs: readonly unknown[] }[];
    }[];
  }[];
  readonly isPublished: boolean;
}

export interface Need {
  readonly what: 'spaces' | 'builder' | 'procedures' | 'skills' | 'boats' | 'parts' | 'plan';
  /** Where it is seen to; `plan`: where plans are made. */
  readonly where: Room | 'plan';
  readonly isDone: boolean;
  /** Who or what it lacks, by name. */
  readonly names: readonly string[];
}

/** What the first plan needs, in an order in which it can be entered. */
export function needs(yard: Beginnings): readonly Need[] {
  const builders = yard.people.filter(({ roles }) => roles.includes('builder'));
  const atWork = builders.filter(({ shifts }) => shifts.length > 0);
  const had = new Set(builders.flatMap(({ abilities }) => abilities.map(({ skill }) => skill)));
  const asked = new Set(
    yard.procedures.flatMap(({ steps }) => steps.flatMap(({ skill }) => skill ?? [])),
  );
  const lacking = [...asked].filter((skill) => !had.has(skill));
  const refits = yard.boats.flatMap((boat) => boat.refits);
  const jobs = refits.flatMap(({ parts }) => parts.flatMap((part) => part.jobs));
  const need = (
    what: Need['what'],
    where: Need['where'],
    isDone: boolean,
    names: readonly string[] = [],
  ): Need => ({ what, where, isDone, names });
  return [
    need('spaces', 'spaces', yard.spaces.length > 0),
    need(
      'builder',
      'people',
      atWork.length > 0,
      builders.map(({ name }) => name),
    ),
    need('procedures', 'procedures', yard.procedures.length > 0),
    need(
      'skills',
      'people',
      yard.procedures.length > 0 && lacking.length === 0,
      lacking.map((id) => yard.skills.find((skill) => skill.id === id)?.name ?? id),
    ),
    need('boats', 'boats', refits.length > 0),
    need('parts', 'boats', jobs.length > 0),
    need('plan', 'plan', yard.isPublished),
  ];
}
