import { crew, foreman, row, type Face, type Rule } from '../rule.ts';

/** What a crew does about a claim, or the foreman for them. */
const ofClaim = (verb: string, mutation: Face): Rule =>
  row(
    `claims.${verb}`,
    [`POST yards/{yardId}/claims/{id}/${verb}`, mutation],
    crew,
    'claim',
    'work',
  );

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
  row(
    'tasks.fail-batch',
    ['POST yards/{yardId}/tasks/{taskId}/batch-failed', 'Mutation.reportBatchFailed'],
    crew,
    'task',
    'work',
  ),
  row(
    'tasks.undo',
    ['POST yards/{yardId}/tasks/{taskId}/undo', 'Mutation.undoReport'],
    crew,
    'task',
    'work',
  ),
  row('claims.list', ['GET yards/{yardId}/claims', 'Query.claims'], crew, 'yard', 'read'),
  row('claims.get', ['GET yards/{yardId}/claims/{id}', 'Query.claim'], crew, 'claim', 'read'),
  ofClaim('join', 'Mutation.joinClaim'),
  ofClaim('leave', 'Mutation.leaveClaim'),
  ofClaim('release', 'Mutation.releaseClaim'),
  ofClaim('start', 'Mutation.startClaim'),
  ofClaim('pause', 'Mutation.pauseClaim'),
  ofClaim('resume', 'Mutation.resumeClaim'),
  ofClaim('progress', 'Mutation.reportProgress'),
  ofClaim('finish', 'Mutation.finishClaim'),
  ofClaim('abandon', 'Mutation.abandonClaim'),
  // Nobody asks for it: `may` says whose claims they are.
  row('claims.lapse', ['job claim-lapse'], crew, 'claim', null),
  row('events.follow', ['GET yards/{yardId}/events', 'Subscription.events'], crew, 'yard', 'read'),
];
