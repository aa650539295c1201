import { counted, inLanguage } from './language.ts';

const days = (count: number): string => counted(count, { one: '# day', other: '# days' });

/** What is decided, by whom it is: prices, photos, a yes or a no. */
const en = {
  pricing: 'Being priced: the work is planned with it and without. It comes by itself.',
  notPriced: 'It is not priced yet.',
  unplannable: 'There is no price',
  later: (count: number) => `${days(count)} later`,
  earlier: (count: number) => `${days(count)} earlier`,
  sameDay: 'finished on the same day',
  finish: (boat: string, words: string) => `${boat}: ${words}`,
  breaks: 'later than promised',
  lateEitherWay: 'later than promised either way',
  money: 'Crew and bought-in, of all boats',
  nothing: 'nothing more',
  more: (sum: string) => `${sum} more`,
  less: (sum: string) => `${sum} less`,
  pricedAt: (moment: string) => `Priced ${moment}.`,
  photos: 'Photos',
  noPhotos: 'There are no photos of it.',
  photo: (place: number, of: number, what: string, part: string, day: string) =>
    `Photo ${String(place)} of ${String(of)}: ${what} on ${part}, found ${day}`,
  open: 'Opens the whole photo.',
  note: (words: string) => `“${words}”`,

  askedBy: (name: string, day: string) => `Asked for by ${name}, ${day}.`,
  you: 'you',
  orderStates: {
    asked: 'is being priced',
    priced: 'waits for a word',
    accepted: 'accepted',
    declined: 'declined',
    withdrawn: 'withdrawn',
  },
  yours: 'waits for your word',
  decidedBy: (name: string, day: string) => `Decided by ${name}, ${day}.`,
  accept: 'Accept',
  acceptThis: 'Accept this change?',
  acceptHint: 'The yard plans with it from now on.',
  acceptNote: 'A word to the yard',
  decline: 'Decline',
  declineThis: 'Decline this change?',
  declineNote: 'Why not',
  withdraw: 'Take it back',
  withdrawThis: 'Take this change back?',
  withdrawNote: 'Why',
  reprice: 'Price it again',
  of: (action: string, words: string) => `${action}: ${words}`,

  ask: 'Ask for a change',
  askHint: 'It is priced in days first. Nothing is done before you have said yes.',
  send: 'Ask for it',
  kind: 'What do you want otherwise?',
  changeKinds: {
    size: 'A part larger or smaller',
    'drop-part': 'A part left out',
    'add-part': 'A further part, like one there is',
  },
  part: 'Which part',
  like: 'Like which part',
  likeHint: 'It gets the same work as that one. For anything else write to the yard.',
  partOf: (part: string, of: string) => `${part} (${of})`,
  newName: 'Name of the new part',
  area: 'Area',
  edge: 'Length of its edges',
  joint: 'Length of its joints',
  words: 'In your words',
  wordsHint: 'Why, or what to mind. The yard reads it.',
} as const;

export const deciding = inLanguage({ en });
