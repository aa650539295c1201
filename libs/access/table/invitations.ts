import { foreman, row, type Rule } from '../rule.ts';

/** How people come into a yard, and out of it again. No program key may. */
export const invitations: readonly Rule[] = [
  row(
    'invitations.list',
    ['GET yards/{yardId}/invitations', 'Query.invitations'],
    foreman,
    'yard',
    null,
  ),
  row(
    'invitations.invite',
    ['POST yards/{yardId}/people/{id}/invitations', 'Mutation.invite'],
    foreman,
    'person',
    null,
  ),
  row(
    'invitations.revoke',
    ['DELETE yards/{yardId}/invitations/{id}', 'Mutation.revokeInvitation'],
    foreman,
    'invitation',
    null,
  ),
  row(
    'people.end-access',
    ['DELETE yards/{yardId}/people/{id}/account', 'Mutation.endAccess'],
    foreman,
    'person',
    null,
  ),
  row(
    'invitations.preview',
    ['POST invitations/preview', 'Query.invitationPreview'],
    'anyone',
    'service',
    null,
  ),
  row(
    'invitations.accept',
    ['POST invitations/accept', 'Mutation.acceptInvitation'],
    'anyone',
    'service',
    null,
  ),
];
