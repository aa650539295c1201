import { inLanguage } from './language.ts';

/** Where the link of an invitation leads. */
const en = {
  title: 'Your invitation',
  incomplete: 'The link is not whole',
  incompleteCure:
    'Open the whole link of your invitation, with what follows the # sign, or ask the foreman for a new one.',
  into: (yard: string, person: string) => `You are invited into ${yard}, as ${person}.`,
  signedInAs: (email: string) => `You are signed in as ${email}.`,
  join: 'Come in with this account',
  other: 'Sign out and take another account',
  new: 'I am new here',
  email: 'Your e-mail',
  name: 'Your name',
  password: 'A password',
  make: 'Make an account and come in',
  known: 'I have an account',
  knownHint: 'Sign in with it; nothing is joined before you say so.',
  inTitle: 'You are in',
  in: (yard: string, person: string) => `${person} of ${yard}. The link is used up.`,
  go: 'Go to your page',
} as const;

export const invitation = inLanguage({ en });
