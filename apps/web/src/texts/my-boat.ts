import { counted, inLanguage, listed } from './language.ts';

/** What an owner reads of the own boats. */
const en = {
  title: 'Your boats',
  none: 'No boat of yours is in this yard',
  noneCure: 'Ask the foreman to put your name to your boat.',
  jump: 'To each boat',
  ofBoat: (title: string, boat: string) => `${boat}: ${title}`,
  print: 'Print this page',
  asOf: (moment: string) => `As of ${moment}.`,

  promised: 'Promised',
  expected: 'Expected',
  noPromise: 'no date promised',
  noPlan: 'not planned yet',
  kept: 'In time.',
  late: (span: string) => `${span} later than promised.`,
  passed:
    'The expected day has passed, and not all is done. The yard tells you here as soon as it has planned anew.',
  noRefit: 'No work is agreed on for this boat.',
  done: (done: number, all: number) =>
    all === 0
      ? 'The work is not planned yet.'
      : done === 0
        ? `None of the ${String(all)} pieces of work is done yet.`
        : done >= all
          ? 'All of the work is done.'
          : `${counted(done, { one: 'One', other: '#' })} of ${String(all)} pieces of work ${done === 1 ? 'is' : 'are'} done.`,

  week: 'This week',
  weekNone: 'Nothing is planned on it this week.',
  weekNoneCure: 'It may be waiting for a film to cure, for its turn, or for a word.',
  states: { planned: 'planned', working: 'under way', done: 'done' },
  work: (task: string, part: string) => `${task}, ${part}`,
  by: (names: readonly string[]) => `by ${listed(names)}`,
  today: 'today',
  spaces: 'Where it is worked on, and when those places are taken',
  spaceFree: 'free this week',

  changed: 'What changed',
  sinces: { week: 'The last week', month: 'The last month', quarter: 'The last three months' },
  sinceOf: 'How far back',
  nothing: 'Nothing has changed.',
  why: 'Why',
  kinds: { plan: 'New plan', work: 'Work done', snag: 'Found', change: 'Change' },

  orders: 'Changes to the work',
  noOrders: 'No changes have been asked for.',
  ask: 'Ask for a change',
  asked: 'It is asked for, and is being priced.',
  noParts: 'There is no part yet that a change could be about.',
  earlierOrders: (count: number) =>
    counted(count, { one: 'One decided earlier', other: '# decided earlier' }),

  photos: 'What was found',
  noPhotos: 'The yard has shown you nothing that was found.',
  found: (kind: string, part: string) => `${kind} on ${part}`,
  foundAt: (day: string) => `Found ${day}.`,
  snagStates: {
    open: 'The yard is looking at it.',
    proposed: 'The yard is looking at how to put it right.',
    accepted: 'It is being put right.',
    settled: 'It has been put right.',
    dismissed: 'It was looked at, and is left as it is.',
  },
} as const;

export const myBoat = inLanguage({ en });
