import { row, type Rule } from '../rule.ts';

/** Signing in and out, and what belongs to an account alone. No program key reaches any of it. */
export const accounts: readonly Rule[] = [
  row('session.sign-in', ['POST sessions', 'Mutation.signIn'], 'anyone', 'service', null),
  row(
    'session.sign-out',
    ['DELETE sessions/current', 'Mutation.signOut'],
    'signed-in',
    'account',
    null,
  ),
  row('session.list', ['GET sessions', 'Query.mySessions'], 'signed-in', 'account', null),
  row(
    'session.close',
    ['DELETE sessions/{id}', 'Mutation.closeSession'],
    'signed-in',
    'session',
    null,
  ),
  row(
    'session.close-others',
    ['DELETE sessions/others', 'Mutation.closeOtherSessions'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'session.sign-out-everywhere',
    ['DELETE sessions', 'Mutation.signOutEverywhere'],
    'signed-in',
    'account',
    null,
  ),
  row('account.me', ['GET me', 'Query.me'], 'signed-in', 'account', null),
  row('account.rename', ['PATCH me', 'Mutation.updateMe'], 'signed-in', 'account', null),
  row(
    'account.change-password',
    ['PUT me/password', 'Mutation.changePassword'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'account.ask-for-reset',
    ['POST password-resets', 'Mutation.requestPasswordReset'],
    'anyone',
    'service',
    null,
  ),
  row(
    'account.reset-password',
    ['POST password-resets/complete', 'Mutation.completePasswordReset'],
    'anyone',
    'service',
    null,
  ),
];
