import { inLanguage } from './language.ts';

/** Where a password is set by a link, and such a link asked for. */
const en = {
  title: 'Your password',
  ask: 'Type the e-mail of your account. If there is one, a link for a new password goes there; it works once, within an hour.',
  email: 'E-mail',
  send: 'Send me a link',
  sentTitle: 'Look into your mail',
  sent: 'If there is an account under this address, a link is on its way. It works once, within an hour. Nothing there after some minutes: look among the unwanted mail, or ask again.',
  askAgain: 'Ask for another link',
  choose: 'Choose the password that you will sign in with. Setting it signs you out everywhere.',
  set: 'Set the password',
  doneTitle: 'The password is set',
  done: 'You are signed out everywhere. Sign in with the new one.',
  toSignIn: 'Sign in',
} as const;

export const password = inLanguage({ en });
