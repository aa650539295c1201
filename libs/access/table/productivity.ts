import { foreman, row, type Rule } from '../rule.ts';

/** How long work really takes, of people too: the foreman's to know and to act on. */
export const productivity: readonly Rule[] = [
  row(
    'productivity.get',
    ['GET yards/{yardId}/productivity', 'Query.productivity'],
    foreman,
    'yard',
    'read',
  ),
  row(
    'productivity.apply',
    ['POST yards/{yardId}/productivity/apply', 'Mutation.applyProductivity'],
    foreman,
    'yard',
    'manage',
  ),
];
