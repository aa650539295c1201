import { crew, foreman, members, row, type Rule } from '../rule.ts';

/** Defects on parts, their pictures, and what is done about them. */
export const snags: readonly Rule[] = [
  row('snags.list', ['GET yards/{yardId}/snags', 'Query.snags'], members, 'yard', 'read'),
  row('snags.get', ['GET yards/{yardId}/snags/{id}', 'Query.snag'], members, 'snag', 'read'),
  row('snags.kinds', ['GET yards/{yardId}/snag-kinds', 'Query.snagKinds'], crew, 'yard', 'read'),
  row(
    'snags.raise',
    ['POST yards/{yardId}/parts/{id}/snags', 'Mutation.raiseSnag'],
    crew,
    'part',
    'work',
  ),
  row(
    'snags.update',
    ['PATCH yards/{yardId}/snags/{id}', 'Mutation.updateSnag'],
    crew,
    'snag',
    'work',
  ),
  row(
    'snags.propose',
    ['POST yards/{yardId}/snags/{id}/propose', 'Mutation.proposeRework'],
    foreman,
    'snag',
    'manage',
  ),
  row(
    'snags.accept',
    ['POST yards/{yardId}/snags/{id}/accept', 'Mutation.acceptRework'],
    foreman,
    'snag',
    'manage',
  ),
  row(
    'snags.dismiss',
    ['POST yards/{yardId}/snags/{id}/dismiss', 'Mutation.dismissSnag'],
    foreman,
    'snag',
    'manage',
  ),
  row(
    'snags.settle',
    ['POST yards/{yardId}/snags/{id}/settle', 'Mutation.settleSnag'],
    foreman,
    'snag',
    'manage',
  ),
  row(
    'snags.reopen',
    ['POST yards/{yardId}/snags/{id}/reopen', 'Mutation.reopenSnag'],
    foreman,
    'snag',
    'manage',
  ),
  row('photos.add', ['POST yards/{yardId}/snags/{id}/photos'], crew, 'snag', 'work'),
  row('photos.get', ['GET yards/{yardId}/photos/{id}'], members, 'photo', 'read'),
  row('photos.remove', ['DELETE yards/{yardId}/photos/{id}'], crew, 'photo', 'work'),
];
