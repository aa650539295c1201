import { counted, inLanguage } from './language.ts';

/** What is said of what is not sent yet, and of what was not taken. */
const en = {
  unsent: (count: number) =>
    counted(count, { one: '# thing is not sent yet', other: '# things are not sent yet' }),
  unsentCure: 'It is kept on this device and sent in this order when the yard can be reached.',
  sending: 'Sending …',
  stopped: 'It cannot be sent at the moment',
  withdraw: 'Do not send',
  withdrawOf: (words: string) => `Do not send: ${words}`,
  onItsWay:
    'It was sent, and may have arrived: it cannot be left out any more. Once it is answered, take it back as anything else that is done.',
  sendNow: 'Send now',
  refusedOf: (words: string) => `Not taken: ${words}`,
  sendAgain: 'Send again',
  sendAgainOf: (words: string) => `Send again: ${words}`,
  drop: 'Let it go',
  dropOf: (words: string) => `Let it go: ${words}`,
  held: 'Waits for the foreman',
  heldCure: 'It was kept, but contradicts what the yard knows. The foreman decides.',
  notYours: 'Somebody else has signed in, or signed out, in this browser',
  notYoursCure: 'Sign in as yourself and do it again: nothing was done under either name.',
  notKept: (why: string) =>
    `This browser keeps nothing at the moment, so it was neither done nor sent (${why})`,
  notKeptCure:
    'Make room on the device or leave private browsing, load this page again, and do it once more.',
  dismissed: 'Set aside by the foreman',
  photos: (count: number) => counted(count, { one: '# photo', other: '# photos' }),
} as const;

export const offline = inLanguage({ en });
