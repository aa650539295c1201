import { crew, foreman, row, type Rule } from '../rule.ts';

/** Tasks, claims, ready work, the log. */
export const work: readonly Rule[] = [
  row(
    'tasks.claim',
    ['POST yards/{yardId}/tasks/{taskId}/claims', 'Mutation.claimTask'],
    crew,
    'task',
    'work',
  ),
  row('tasks.ready', ['GET yards/{yardId}/ready', 'Query.ready'], crew, 'yard', 'read'),
  row('tasks.list', ['GET yards/{yardId}/tasks', 'Query.tasks'], crew, 'yard', 'read'),
  row('tasks.get', ['GET yards/{yardId}/tasks/{id}', 'Query.task'], crew, 'task', 'read'),
  row(
    'tasks.fix',
    ['PATCH yards/{yardId}/tasks/{id}', 'Mutation.fixTask'],
    foreman,
    'task',
    'manage',
  ),
  row('claims.list', ['GET yards/{yardId}/claims', 'Query.claims'], crew, 'yard', 'read'),
  row('claims.get', ['GET yards/{yardId}/claims/{id}', 'Query.claim'], crew, 'claim', 'read'),
  row(
    'claims.release',
    ['POST yards/{yardId}/claims/{id}/release', 'Mutation.releaseClaim'],
    crew,
    'claim',
    'work',
  ),
  row(
    'claims.start',
    ['POST yards/{yardId}/claims/{id}/start', 'Mutation.startClaim'],
    crew,
    'claim',
    'work',
  ),
  row(
    'claims.finish',
    ['POST yards/{yardId}/claims/{id}/finish', 'Mutation.finishClaim'],
    crew,
    'claim',
    'work',
  ),
  row('events.follow', ['GET yards/{yardId}/events', 'Subscription.events'], crew, 'yard', 'read'),
];
