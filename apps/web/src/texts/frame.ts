import { inLanguage } from './language.ts';

/** Names of the pages, as the way to them says. */
const en = {
  week: 'Week',
  plans: 'Plans',
  desk: 'Desk',
  setUp: 'Set-up',
  now: 'Now',
  myBoat: 'My boat',
  offline:
    'Out of reach: what you see is what was read last. What you do is kept here and sent when you are back.',
  insecure: 'This page came without https.',
  insecureLacks:
    'Whoever shares the network can read along, and the browser keeps back what needs https: opening the page out of reach, notifications, passkeys, copying by a button. Everything else works.',
  insecureCure:
    'The cure is with whoever runs the service: an https address, set as PUBLIC_URL as its README says.',
  insecureSeen: 'Understood',
} as const;

export const frame = inLanguage({ en });
