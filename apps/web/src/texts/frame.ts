import { inLanguage } from './language.ts';

/** Names of the pages, as the way to them says. */
const en = {
  week: 'Week',
  plans: 'Plans',
  desk: 'Desk',
  setUp: 'Yard',
  now: 'Now',
  myBoat: 'My boat',
  changeYard: 'Yard',
  offline:
    'Out of reach: what you see is what was read last. What you do is kept here and sent when you are back.',
} as const;

export const frame = inLanguage({ en });
