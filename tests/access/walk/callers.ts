import { type Scope, scopes } from '#access/rule.ts';
import type { Role } from '#planning/yard/people.ts';
import type { Caller } from '../outcome.ts';
import type { Side, Who } from '../world/side.ts';
import type { World } from '../world/make-world.ts';

/** Somebody who calls, with what shows who it is. */
export interface Asking extends Caller {
  readonly name: string;
  readonly token: string | null;
  readonly memberId: string | null;
  readonly accountId: string | null;
  /** Not one of the five that are asked about everything. */
  readonly isFurther: boolean;
}

const roles: Record<Who, Role> = {
  foreman: 'foreman',
  builder: 'builder',
  owner: 'owner',
  neighbour: 'owner',
};

export const anonymous: Asking = {
  name: 'anonymous',
  token: null,
  memberId: null,
  accountId: null,
  isFurther: false,
  isKnown: false,
  member: null,
  scopes: null,
  lacksFactor: false,
};

export function person(side: Side, who: Who, name: string = who): Asking {
  const member = { yardId: side.yardId, roles: [roles[who]] };
  return { ...anonymous, ...side.people[who], name, isKnown: true, member };
}

/** A program of the foreman's. */
export function program(side: Side, scope: Scope): Asking {
  const foreman = person(side, 'foreman', `a key to ${scope}`);
  return { ...foreman, token: side.keys[scope], scopes: [scope] };
}

/** The five, and who else the table tells apart. */
export function callersOf({ here, there, stranger }: World): Asking[] {
  const five = [
    anonymous,
    person(here, 'owner'),
    person(here, 'builder'),
    person(here, 'foreman'),
    person(there, 'foreman', 'foreman of another yard'),
  ];
  const further = [
    person(here, 'neighbour', 'owner of another boat'),
    { ...anonymous, ...stranger, name: 'member of no yard', isKnown: true },
    ...scopes.map((scope) => program(here, scope)),
  ];
  return [...five, ...further.map((one) => ({ ...one, isFurther: true }))];
}
