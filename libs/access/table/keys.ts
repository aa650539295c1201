import { members, type May, row, type Rule } from '../rule.ts';

/** The foreman reaches all keys of the yard, everybody else the own ones. */
const holders = { foreman: 'all', builder: 'own', owner: 'own' } as const satisfies May;

/** Keys for programs; no key makes, lists or ends one. */
export const keys: readonly Rule[] = [
  row(
    'program-keys.list',
    ['GET yards/{yardId}/program-keys', 'Query.programKeys'],
    holders,
    'yard',
    null,
  ),
  row(
    'program-keys.create',
    ['POST yards/{yardId}/program-keys', 'Mutation.createProgramKey'],
    members,
    'yard',
    null,
  ),
  row(
    'program-keys.revoke',
    ['DELETE yards/{yardId}/program-keys/{id}', 'Mutation.revokeProgramKey'],
    holders,
    'program-key',
    null,
  ),
];
