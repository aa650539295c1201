import { counted, inLanguage } from './language.ts';

/** What every room says. */
const en = {
  product: 'Curewright',
  save: 'Save',
  cancel: 'Cancel',
  close: 'Close',
  remove: 'Remove',
  add: 'Add',
  edit: 'Change',
  back: 'Back',
  again: 'Try again',
  yes: 'Yes',
  no: 'No',
  none: 'None',
  optional: 'optional',
  loading: 'One moment …',
  skipToContent: 'Skip to the content',
  menu: 'Pages',
  signOut: 'Sign out',
  account: 'Your account',
  saved: 'Saved.',
  unreachable: 'The yard cannot be reached',
  unreachableCure: 'Check the connection; this page tries again by itself.',
  notLive: 'Not live at the moment: what you see may be some minutes old.',
  wrongFields: (count: number) =>
    counted(count, { one: 'One thing is not right yet', other: '# things are not right yet' }),
  changedMeanwhile:
    'Somebody else has changed this meanwhile. What is there now has been read again; your change was not made.',
  notFound: 'There is no such page',
  notFoundCure: 'The address may be mistyped, or what stood here is gone.',
  notYours: 'This page is not for you',
  notYoursCure: (roles: string) =>
    `It is for whoever is ${roles} in this yard. If that should be you, ask the foreman.`,
  broken: 'Something in this page went wrong',
  brokenCure:
    'Nothing that was saved is lost. Read the page again; if it happens anew, tell whoever runs the service.',
  role: { foreman: 'foreman', builder: 'builder', owner: 'owner' },
  air: { clean: 'clean', dusty: 'dusty', wet: 'wet' },
  or: 'or',
} as const;

export const common = inLanguage({ en });
