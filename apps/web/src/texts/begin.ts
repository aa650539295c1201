import { counted, inLanguage } from './language.ts';

/** Where a yard is begun. */
const en = {
  title: 'Begin a yard',
  founder: 'Whoever begins a yard is its foreman.',
  name: 'Name of the yard',
  zone: 'Time zone',
  currency: 'Currency',
  begins: 'What it begins with',
  kit: 'The starting kit',
  kitHint:
    'The usual skills, tools and materials, and eight procedures of the trade, ready for your boats.',
  nothing: 'Nothing',
  nothingHint: 'You enter everything yourself.',
  file: 'A yard file',
  fileHint: 'A yard that was exported before, or written by hand, is taken in as a whole.',

  how: 'How do you work?',
  alone: 'Alone: I do the work myself',
  withOthers: 'With others, and I work with my hands too',
  lead: 'With others, and I lead only',
  ownBoats: 'Boats here are my own',
  hours: 'Your working hours',
  days: 'Days',
  from: 'From',
  to: 'To',
  breakFrom: 'Break from',
  breakTo: 'Break to',
  weekdays: ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'],
  place: 'Where the work is done',
  placeHint: 'The first space; others follow in the set-up.',
  placeName: 'What it is called',
  placeStart: 'Shed',
  celsius: 'How warm it is there',
  celsiusHint: 'Films harden by it. Loggers and forecasts follow in the set-up.',
  isHeld: 'A heater holds it',
  notHeld: 'Then plans reckon with 5 °C more or less.',
  startingValues: 'Starting values are no data sheet',
  startingValuesCure:
    'The kit knows classes of material, not your products: where no published number is known its times are common practice with a wide margin, and how much hardener an epoxy takes is left open. Enter the data sheets of what you use before you rely on a window.',
  make: 'Make the yard',

  madeBefore: (yard: string) => `${yard} was made as you first sent it, though no answer came`,
  madeBeforeCure:
    'It is among your yards: change it in its set-up. Under another name a second yard is made.',

  choose: 'Choose the file',
  paste: 'Or paste what is in it',
  takeIn: 'Take this yard in',
  otherId: 'Id in this service',
  otherIdHint: 'The id in the file is taken here. Lower-case letters, digits and dashes.',
  nothingChosen: 'There is nothing to take in yet',
  nothingChosenCure: 'Choose a file, or paste its text.',
  notJson: (why: string) => `This is no yard file: ${why}`,
  notJsonCure: 'A yard file is JSON, as the export of a yard gives it.',
  noObject: 'it holds no yard',
  unreadable: 'The file cannot be read',
  holds: (name: string, people: number, boats: number) =>
    `${name}: ${counted(people, { one: '# person', other: '# people' })}, ${counted(boats, {
      one: '# boat',
      other: '# boats',
    })}.`,
  nameless: 'A yard without a name',
} as const;

export const begin = inLanguage({ en });
