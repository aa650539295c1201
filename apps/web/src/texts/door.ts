import { inLanguage } from './language.ts';

/** What is said where somebody comes in. */
const en = {
  title: 'Sign in',
  email: 'E-mail',
  password: 'Password',
  newPassword: 'New password',
  newPasswordHint:
    'At least 15 characters. Four or more words that do not belong together are easy to keep in mind and hard to guess; spaces count.',
  showPassword: 'Show it',
  signIn: 'Sign in',
  byPasskey: 'Sign in with a passkey',
  orPassword: 'Or with e-mail and password',
  forgotten: 'Forgotten, or never set: have a link sent',
  code: 'Code',
  codeHint: 'Six digits of your authenticator, or one of your recovery codes.',
  codeTitle: 'Second factor',
  codeAsked: 'The password is right. Now show the second factor.',
  codeSend: 'Sign in with this code',
  otherWay: 'Back to e-mail and password',
  passkeyGivenUp: 'No passkey was shown',
  passkeyGivenUpCure: 'Try again, or sign in with your password.',
  passkeyUnknown: 'The passkey does not say whose it is',
  passkeyKnown: 'This device has a passkey for your account already',
  passkeyKnownCure: 'Use that one, or make one on another device.',
  endedTitle: 'Sign in again',
  ended:
    'Your session has ended. What you had typed is kept on this page: sign in as the same person and go on.',
} as const;

export const door = inLanguage({ en });
