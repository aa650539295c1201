import { counted, inLanguage } from './language.ts';

/** Somebody's own account, whatever yard they are in. */
const en = {
  title: 'Your account',
  you: 'You',
  name: 'Name',
  email: 'E-mail',
  emailFixed:
    'It cannot be changed: for another one the foreman ends the access and invites you anew.',
  units: 'Lengths, areas and weights',
  metric: 'Metric (m², g)',
  imperial: 'Imperial (sq ft, oz)',
  temperature: 'Temperatures',
  celsius: 'Degrees Celsius',
  fahrenheit: 'Degrees Fahrenheit',
  signOutHint: 'Takes off this device all that could be read of you.',
  unsent: (deeds: number) =>
    counted(deeds, {
      one: 'One thing that you did is not sent yet. It stays on this device and is sent when you sign in here again.',
      other:
        '# things that you did are not sent yet. They stay on this device and are sent when you sign in here again.',
    }),
  yards: 'Your yards',
  as: (yard: string, roles: string) => `${yard}, as ${roles}`,
  noYards: 'You are in no yard.',
  begin: 'Begin a yard',

  password: 'Password',
  oldPassword: 'The password you have',
  setPassword: 'Change the password',
  passwordSet: 'The password is changed, and all your other sessions are closed.',

  notifications: 'Notifications on this device',
  notificationState: {
    on: 'This device tells you when a window opens or shuts and what else cannot wait.',
    off: 'This device tells you nothing while the page is closed.',
    refused:
      'This browser has been told not to show notifications of this page. Its own settings for the page take that back.',
    'install-first':
      'This browser shows notifications of what is on the home screen: share the page, choose “Add to Home Screen”, and open it from there.',
    missing: 'This browser has no notifications. Look at your page for what is due.',
  },
  switchOn: 'Switch notifications on',
  switchOff: 'Switch notifications off',
  otherDevices: 'Devices that take notifications',
  lastSent: (when: string) => `last one ${when}`,
  neverSent: 'none sent yet',

  factor: 'Second factor',
  factorWhat:
    'A code from your phone beside the password. Who has guessed or found the password does not come in with it alone.',
  factorOff: 'No codes are asked for.',
  factorSince: (when: string) => `Codes have been asked for since ${when}.`,
  recoveryLeft: (codes: number) =>
    counted(codes, { one: '# recovery code is left', other: '# recovery codes are left' }),
  setUp: 'Set up codes',
  yourPassword: 'Your password',
  yourPasswordHint: 'Once more: who finds an open browser has not got it.',
  next: 'Go on',
  scan: 'Read this picture with an app for one-time codes, or type the secret into it. Then type the first code that it shows.',
  scanPicture: 'Picture of the secret for an authenticator app',
  secret: 'Secret',
  firstCode: 'First code',
  confirm: 'Switch codes on',
  confirmBefore: (when: string) => `Good until ${when}.`,
  codesTitle: 'Your recovery codes',
  codesWhat:
    'Each stands in for a code once, should the phone be lost. They are shown only now: print them or write them down, and keep them apart from the phone.',
  print: 'Print them',
  codesKept: 'I have kept them',
  newCodes: 'New recovery codes',
  newCodesHint: 'Those before are void.',
  switchCodesOff: 'Switch codes off',
  code: 'Code',
  codeHint: 'Six digits of your authenticator, or a recovery code.',
  showFirst: 'Show your second factor once in this session before you change anything about it.',
  showIt: 'Show it',
  showByPasskey: 'Show a passkey',

  passkeys: 'Passkeys',
  passkeysWhat:
    'A passkey of your phone or computer signs you in without e-mail and password, by finger, face or PIN.',
  noPasskeys: 'You have none yet.',
  passkeysMissing: 'This browser cannot make passkeys.',
  addPasskey: 'Add a passkey',
  passkeyName: 'Name for your own list',
  passkeyNameStart: 'This device',
  make: 'Make the passkey',
  made: (when: string) => `made ${when}`,
  used: (when: string) => `last used ${when}`,
  neverUsed: 'never used',
  rename: 'Rename',
  removePasskey: (name: string) => `Remove the passkey ${name}`,
  renamePasskey: (name: string) => `Rename the passkey ${name}`,

  sessions: 'Where you are signed in',
  thisOne: 'this one',
  seen: (when: string) => `last used ${when}`,
  opened: (when: string) => `since ${when}`,
  shownFactor: 'with a second factor',
  close: 'Sign out there',
  closeOf: (device: string) => `Sign out there, on ${device}`,
  removeOf: (device: string) => `Remove ${device}`,
  closeOthers: 'Sign out everywhere else',
  closed: (sessions: number) =>
    counted(sessions, { one: '# session is closed.', other: '# sessions are closed.' }),
  everywhere: 'Sign out everywhere',
  times: (zone: string) => `Times are those of ${zone}.`,
  on: (browser: string, system: string) => `${browser} on ${system}`,
  unknownDevice: 'A program that does not say what it is',
} as const;

export const account = inLanguage({ en });
