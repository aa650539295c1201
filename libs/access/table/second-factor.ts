import { row, type Rule } from '../rule.ts';

/** One-time codes and recovery codes: an account's own, but for the step of signing in. */
export const secondFactor: readonly Rule[] = [
  row(
    'second-factor.sign-in',
    ['POST sessions/second-factor', 'Mutation.signInWithCode'],
    'anyone',
    'service',
    null,
  ),
  row(
    'second-factor.step-up',
    ['POST sessions/current/second-factor', 'Mutation.showSecondFactor'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'second-factor.get',
    ['GET second-factor', 'Query.secondFactor'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'second-factor.set-up',
    ['POST second-factor/totp', 'Mutation.setUpTotp'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'second-factor.confirm',
    ['POST second-factor/totp/confirm', 'Mutation.confirmTotp'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'second-factor.remove',
    ['DELETE second-factor/totp', 'Mutation.removeTotp'],
    'signed-in',
    'account',
    null,
  ),
  row(
    'second-factor.renew-codes',
    ['POST second-factor/recovery-codes', 'Mutation.renewRecoveryCodes'],
    'signed-in',
    'account',
    null,
  ),
];
