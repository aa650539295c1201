import { row, type May, type Rule } from '../rule.ts';

/** Whoever runs the yard, and whoever owns the boat that it is about. */
const parties = { foreman: 'all', owner: 'own' } as const satisfies May;

/** Change orders: what somebody wants otherwise than agreed, what it would cost, who says yes. */
export const changes: readonly Rule[] = [
  row('changes.list', ['GET yards/{yardId}/changes', 'Query.changes'], parties, 'yard', 'read'),
  row(
    'changes.get',
    ['GET yards/{yardId}/changes/{id}', 'Query.change'],
    parties,
    'change',
    'read',
  ),
  row(
    'changes.ask',
    ['POST yards/{yardId}/changes', 'Mutation.askForChange'],
    parties,
    'yard',
    'manage',
  ),
  row(
    'changes.reprice',
    ['POST yards/{yardId}/changes/{id}/reprice', 'Mutation.repriceChange'],
    parties,
    'change',
    'manage',
  ),
  row(
    'changes.accept',
    ['POST yards/{yardId}/changes/{id}/accept', 'Mutation.acceptChange'],
    parties,
    'change',
    'manage',
  ),
  row(
    'changes.decline',
    ['POST yards/{yardId}/changes/{id}/decline', 'Mutation.declineChange'],
    parties,
    'change',
    'manage',
  ),
  row(
    'changes.withdraw',
    ['POST yards/{yardId}/changes/{id}/withdraw', 'Mutation.withdrawChange'],
    parties,
    'change',
    'manage',
  ),
  // Whoever asked must be one of them still when a worker takes it up.
  row('changes.price', ['job price', 'job price-given-up'], parties, 'change', null),
];
