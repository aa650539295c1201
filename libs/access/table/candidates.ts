import { crew, foreman, row, type Rule } from '../rule.ts';

/** Plans for what happened, what plans change, what was told when, and how live work is handled. */
export const candidates: readonly Rule[] = [
  row(
    'candidates.list',
    ['GET yards/{yardId}/candidates', 'Query.candidates'],
    foreman,
    'yard',
    'read',
  ),
  row(
    'candidates.get',
    ['GET yards/{yardId}/candidates/{planId}', 'Query.candidate'],
    foreman,
    'candidate',
    'read',
  ),
  row(
    'candidates.ask',
    ['POST yards/{yardId}/candidates', 'Mutation.askForCandidate'],
    foreman,
    'yard',
    'manage',
  ),
  row(
    'candidates.discard',
    ['POST yards/{yardId}/candidates/{planId}/discard', 'Mutation.discardCandidate'],
    foreman,
    'candidate',
    'manage',
  ),
  row(
    'plans.difference',
    ['GET yards/{yardId}/plans/{id}/difference', 'Query.planDifference'],
    foreman,
    'plan',
    'read',
  ),
  row(
    'plans.publishings',
    ['GET yards/{yardId}/publishings', 'Query.publishings'],
    crew,
    'yard',
    'read',
  ),
  row(
    'tasks.history',
    ['GET yards/{yardId}/tasks/{id}/history', 'Query.taskHistory'],
    crew,
    'task',
    'read',
  ),
  row(
    'live-settings.get',
    ['GET yards/{yardId}/live-settings', 'Query.liveSettings'],
    crew,
    'yard',
    'read',
  ),
  row(
    'live-settings.update',
    ['PATCH yards/{yardId}/live-settings', 'Mutation.updateLiveSettings'],
    foreman,
    'yard',
    'manage',
  ),
];
