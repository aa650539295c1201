import type { Schema } from '../api/client.ts';
import { counted, inLanguage, listed } from './language.ts';

type WorkKind = Exclude<Schema<'ReportCommandInput'>['kind'], 'reading' | 'tack-test'>;
type Found = Schema<'TackTestInput'>['found'];

/** What the builder's page says. */
const en = {
  title: 'Now',
  asOf: (when: string) => `As of ${when}. Out of reach.`,
  notSent: 'Not sent yet',

  inHand: 'What you are on',
  nothingReady: 'Nothing is ready for you at the moment.',
  first: 'First of what is ready',
  alsoReady: 'Also ready for you',
  opensNext: 'What opens next',
  waitsOn: 'What else waits',
  nothingWaits: 'Nothing that you could do is waiting.',
  showAll: (count: number) => `Show all ${String(count)}`,
  more: 'More',
  moreAbout: (task: string) => `More about ${task}`,
  details: 'What to know',
  detailsOf: (task: string) => `What to know about ${task}`,

  state: {
    ready: 'ready',
    claimed: 'claimed by you',
    working: 'at work',
    paused: 'paused',
  },
  since: (clock: string) => `Begun ${clock}`,
  expected: (clock: string) => `expected over ${clock}`,
  lapses: (clock: string) => `Yours until ${clock}; not begun by then, it is free again.`,
  with: (names: readonly string[]) => `With ${listed(names)}`,
  plannedFor: (when: string) => `planned for ${when}`,
  work: (time: string) => `${time} of work`,
  crew: (least: number, most: number) =>
    least === most
      ? counted(most, { one: 'for # person', other: 'for # people' })
      : `for ${String(least)} to ${String(most)} people`,
  window: {
    until: (when: string) => `Window open until ${when}`,
    left: (time: string) => `${time} left`,
    shut: 'The window has shut',
    untilBy: (basis: string, when: string) => `${basis}, the window stays open until ${when}`,
    shutBy: (basis: string) => `${basis}, the window has shut; it may have moved since`,
    startBy: (when: string) => `Begin by ${when} to be over in time`,
    startLate: (when: string) =>
      `Begun now it is hardly over in time: it should have begun by ${when}`,
    meter: (time: string) => `The window stays open for ${time}`,
  },
  /** On what rests what is known, where it is not known as it is now. */
  basis: {
    planned: 'As planned',
    asOf: (when: string) => `As of ${when}`,
    asRead: 'As it was read last',
  },
  neededBy: (when: string) => `Needed by ${when}`,
  opens: (when: string) => `Opens ${when}`,
  isOpen: 'Opens now',

  do: {
    claim: 'Claim',
    claimAndStart: 'Claim and start',
    start: 'Start',
    pause: 'Pause',
    resume: 'Go on',
    finish: 'Finish',
    release: 'Give it back',
    join: 'Join',
    leave: 'Leave the crew',
    progress: 'Say how much is left',
    abandon: 'Give it up',
    'fail-batch': 'The batch has failed',
    undo: 'Take back the last report',
  } satisfies Record<WorkKind | 'claimAndStart', string>,
  done: (kind: WorkKind, task: string) =>
    ({
      claim: `Claimed “${task}”`,
      start: `Started “${task}”`,
      pause: `Paused “${task}”`,
      resume: `Went on with “${task}”`,
      finish: `Finished “${task}”`,
      release: `Gave back “${task}”`,
      join: `Joined “${task}”`,
      leave: `Left the crew of “${task}”`,
      progress: `Said how much is left of “${task}”`,
      abandon: `Gave up “${task}”`,
      'fail-batch': `Reported a failed batch of “${task}”`,
      undo: `Took back the last report of “${task}”`,
    })[kind],
  takeBack: 'Take it back',

  reason: 'Why',
  reasonHint: {
    abandon: 'What was laid has to come off; the foreman reads this.',
    'fail-batch': 'It gelled too soon, was mixed wrong, was contaminated …',
  },
  left: 'Minutes of work still to do',
  leftHint: 'Of one builder at the usual pace.',
  lessLeft: 'Less',
  moreLeft: 'More',

  refused: {
    title: 'Not done',
    held: 'The foreman has to look at this',
    heldCure: 'What you reported is kept. It contradicts what is known; the foreman decides.',
    override: 'Begin all the same',
    overrideWhy: 'Why it may begin against the advice',
  },

  withWhom: {
    title: 'With whom',
    asks: (least: number, most: number) =>
      least === most
        ? `It takes ${String(least)} people.`
        : `It takes ${String(least)} to ${String(most)} people.`,
    fit: 'Who is fit for it',
    tooFew: (least: number) => `Choose at least ${String(least)}, yourself among them.`,
  },
  together: 'Work with somebody',
  nobody: 'Nobody else has work in hand.',

  cautions: 'Cautions',
  warnings: 'Look at this first',
  warningOf: (task: string, words: string) => `${task}: ${words}`,
  source: (source: string) => `Source: ${source}`,
  mix: {
    title: 'Mix sheet',
    of: (task: string) => `Mix sheet of ${task}`,
    material: (name: string) => `Mix ${name}`,
    ratio: (ratio: string) => `Ratio ${ratio}`,
    resinAt: (temperature: string) => `reckoned with resin at ${temperature}`,
    reckonedBy: (basis: string) => `${basis}; the temperature may be another by now.`,
    closing: {
      short: (when: string) => `The window shuts ${when}, before a cup mixed now has to be spread`,
      shut: (when: string) => `The window has shut, ${when}: do not mix`,
    },
    closingBy: {
      short: (basis: string, when: string) =>
        `${basis}, the window shuts ${when}, before a cup mixed now has to be spread`,
      shut: (basis: string, when: string) => `${basis}, the window was to shut ${when}`,
    },
    closingByCure: {
      short: 'It may have moved since. Mix no more than is spread by then.',
      shut: 'It may have moved since. Ask the foreman before you mix.',
    },
    closingCure: {
      short: 'Mix no more than is spread by then.',
      shut: 'What is laid now would not bond as it should. Ask the foreman first.',
    },
    whole: 'In all',
    resin: 'Resin',
    hardener: 'Hardener',
    cupNumber: (number: number) => `Cup ${String(number)}`,
    cup: (number: number, count: number) => `Cup ${String(number)} of ${String(count)}`,
    weighed: 'Weighed',
    mixed: 'Mixed now',
    notMixed: 'Not mixed after all',
    isMixed: (clock: string) => `Mixed ${clock}`,
    spread: 'All spread',
    notSpread: 'Not spread yet after all',
    isSpread: 'Spread',
    spreadIn: 'Spread within',
    spreadBy: (clock: string) => `spread by ${clock}`,
    gelsIn: 'Sets in the cup in',
    gelsAt: (clock: string) => `in the cup it sets at ${clock}`,
    over: 'Past its pot life: do not use what is left in the cup',
    overCure: 'It may heat and smoke. Put it outdoors, on something that does not burn.',
    useWithin: (time: string) => `to be spread within ${time} of mixing`,
    potLife: (time: string) => `pot life ${time}`,
    missing: 'Cannot be weighed yet',
    working: 'How this is reckoned',
    fabrics: 'Cloth',
    consumables: 'Take along',
    defers: 'The data sheet of the product comes first; where it says otherwise, it is right.',
    none: 'There is nothing to mix for this.',
  },
  bond: {
    title: 'Onto what',
    chemical: 'chemical bond',
    mechanical: 'mechanical bond',
    preparation: 'First, in this order',
  },

  tell: {
    title: 'Report',
    tack: 'Tack test',
    temperature: 'Temperature',
    snag: 'Snag',
    thanks: 'Reported.',
    kept: 'Kept here; it is sent when you are back in reach.',
  },
  tack: {
    which: 'Which film',
    none: 'No film is known that was laid in the last days. It shows here as soon as wet work is finished.',
    laid: (when: string) => `laid ${when}`,
    how: 'What a gloved finger finds',
    found: {
      'still-wet': 'Still wet',
      tacky: 'Tacky',
      clogs: 'Clogs the paper',
      dry: 'Sands dry',
    } satisfies Record<Found, string>,
    hint: {
      'still-wet': 'It comes off on the glove',
      tacky: 'It grips, and does not come off',
      clogs: 'Dust balls up in the paper',
      dry: 'Dust falls off as powder',
    } satisfies Record<Found, string>,
    expected: 'Expected',
    inOrder: 'What it comes to, and how to find out',
    notBefore: 'not within the plan',
    told: (found: Found, film: string) =>
      `Tack test of “${film}”: ${{ 'still-wet': 'still wet', tacky: 'tacky', clogs: 'clogs the paper', dry: 'sands dry' }[found]}`,
  },
  temperature: {
    where: 'Where',
    air: 'Air',
    surface: 'Surface',
    likely: 'Press what it shows, and it is reported',
    other: 'Something else',
    colder: 'Colder',
    warmer: 'Warmer',
    report: (value: string) => `Report ${value}`,
    told: (value: string, of: string, space: string) => `${of} in ${space}: ${value}`,
  },
  snag: {
    title: 'Raise a snag',
    part: 'Which part',
    kind: 'What is wrong',
    words: 'Where it is and how it shows',
    area: 'How much of the part',
    areaHint: 'Left empty: all that the work covers.',
    photos: 'Photos',
    add: 'Take a photo',
    photo: (number: number) => `Photo ${String(number)}`,
    removePhoto: (number: number) => `Remove photo ${String(number)}`,
    unreadable: (name: string) =>
      `“${name}” is not a picture that this browser can read. Take it anew, or choose a JPEG, PNG or WebP.`,
    raise: 'Raise this snag',
    noWords: 'Say where it is and how it shows.',
    noPart: 'Choose a part.',
    told: (kind: string, part: string) => `Snag on ${part}: ${kind}`,
  },

  alarms: {
    title: 'Alarms',
    noted: 'Understood',
    notedOf: (words: string) => `Understood: ${words}`,
    others: (count: number) => counted(count, { one: '# more alarm', other: '# more alarms' }),
    told: (words: string) => `Understood: ${words}`,
  },
  week: {
    title: 'Your week as planned',
    none: 'No plan is published yet.',
    free: 'You are not planned for anything this week.',
    continued: 'goes on',
    fromTo: (from: string, to: string) => `${from} to ${to}`,
    today: 'today',
  },
  notify: {
    offer: 'Be told when a window opens or is about to shut, also with this page closed?',
    yes: 'Notify me on this device',
    no: 'Not now',
  },
} as const;

export const now = inLanguage({ en });
