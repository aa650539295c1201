import { inLanguage } from './language.ts';

/** Where somebody begins who has no yard, or several. */
const en = {
  title: 'Your yards',
  choose: 'Where do you go today?',
  none: 'You are in no yard yet',
  noneInvited:
    'If somebody has invited you, open the link of the invitation: it brings you into their yard.',
  noneBegin: 'Or begin a yard of your own. Whoever begins one is its foreman.',
  begin: 'Begin a yard',
  another: 'Begin another yard',
  as: (roles: string) => `as ${roles}`,
  needsFactor:
    'This yard lets in only who has shown a second factor. Set one up, or show it, in your account.',
  toFactor: 'Second factor of your account',
} as const;

export const home = inLanguage({ en });
