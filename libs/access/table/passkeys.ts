import { row, type Rule } from '../rule.ts';

/** Passkeys: an account's own, but for signing in with one. */
export const passkeys: readonly Rule[] = [
  row(
    'passkeys.sign-in-options',
    ['POST sessions/passkey/options', 'Mutation.passkeySignInOptions'],
    'anyone',
    'service',
    null,
  ),
  row(
    'passkeys.sign-in',
    ['POST sessions/passkey', 'Mutation.signInWithPasskey'],
    'anyone',
    'service',
    null,
  ),
  row('passkeys.list', ['GET passkeys', 'Query.passkeys'], 'signed-in', 'account', null),
  row(
    'passkeys.options',
    ['POST passkeys/options', 'Mutation.passkeyOptions'],
    'signed-in',
    'account',
    null,
  ),
  row('passkeys.add', ['POST passkeys', 'Mutation.addPasskey'], 'signed-in', 'account', null),
  row(
    'passkeys.rename',
    ['PATCH passkeys/{id}', 'Mutation.renamePasskey'],
    'signed-in',
    'passkey',
    null,
  ),
  row(
    'passkeys.remove',
    ['DELETE passkeys/{id}', 'Mutation.removePasskey'],
    'signed-in',
    'passkey',
    null,
  ),
];
