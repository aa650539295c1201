import { foreman, row, type Rule } from '../rule.ts';

/** What the yard asks of its members, and lets its owners read. No program key changes it. */
export const accessSettings: readonly Rule[] = [
  row(
    'access-settings.get',
    ['GET yards/{yardId}/access-settings', 'Query.accessSettings'],
    foreman,
    'yard',
    'read',
  ),
  row(
    'access-settings.update',
    ['PATCH yards/{yardId}/access-settings', 'Mutation.updateAccessSettings'],
    foreman,
    'yard',
    null,
  ),
];
