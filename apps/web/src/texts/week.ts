import { counted, inLanguage, listed } from './language.ts';

/** The foreman's week. */
const en = {
  title: 'The week',
  titleFrom: (first: string, last: string) => `${first} to ${last}`,
  by: 'Lanes by',
  view: { people: 'People', spaces: 'Spaces', boats: 'Boats' },
  earlier: 'Week before',
  later: 'Week after',
  now: 'This week',
  today: 'Today',
  days: 'Days',
  nearness: 'How near',
  dayBefore: 'Before',
  dayAfter: 'After',
  closer: 'Closer',
  farther: 'Farther',
  asTable: 'As a table',
  tableOf: (lane: string) => `Work: ${lane}`,
  asPicture: 'As a picture',
  print: 'Week on paper',

  noPlan: 'No plan is published yet',
  noPlanCure: 'Ask for a plan, look at it, and publish it: the week is drawn from it.',
  toPlans: 'To the plans',
  notPublished: 'You are looking at a plan that is not published.',
  compare: 'Compare it with the published plan',
  toPublished: 'To the published plan',
  begins: (when: string) => `The plan begins ${when}; what was done before is not in it.`,
  emptyWeek: 'Nothing is planned in these days.',
  gone: 'There is no such plan',

  holds: 'The week holds',
  holdsNot: 'The week does not hold',
  planned: 'This plan',
  keeps: (boats: number) =>
    counted(boats, {
      one: 'By the plan the one boat keeps its promise.',
      other: 'By the plan all # boats keep their promises.',
    }),
  late: (boat: string, span: string, finish: string) =>
    `${boat} is planned ${span} after its promise: finished ${finish}.`,
  behind: (count: number) =>
    counted(count, {
      one: '# task should have begun by now:',
      other: '# tasks should have begun by now:',
    }),
  overdue: (count: number) =>
    counted(count, {
      one: '# task should be over by now:',
      other: '# tasks should be over by now:',
    }),
  ahead: (count: number) =>
    counted(count, {
      one: '# task is under way before its time:',
      other: '# tasks are under way before their time:',
    }),
  more: (count: number) => counted(count, { one: '# more', other: '# more' }),
  plannedFor: (times: string, crew: readonly string[]) =>
    crew.length === 0 ? `planned ${times}` : `planned ${times}, ${listed(crew)}`,
  taskOn: (task: string, part: string) => `${task} on ${part}`,
  shutting: (task: string, closes: string) => `By the plan, ${task} must be over by ${closes}.`,
  candidate: 'A new plan waits for your word.',
  toCandidate: 'Look at it',
  running: 'A plan is being made.',
  toRun: 'Watch it',
  desk: 'What waits for your word',

  picture: 'The week as a picture',
  pictureHelp:
    'Arrows lead from plank to plank, Home and End along a lane, Page Up and Page Down to the week before and after; Enter opens a task.',
  nobody: 'Nobody: bookings and words to come',
  lanesOf: 'Lanes',
  room: (count: number) => counted(count, { one: 'room for # person', other: 'room for # people' }),
  dustReaches: (names: readonly string[]) => `dust from here reaches ${listed(names)}`,
  dustFrom: (space: string) => `dust from ${space}`,
  idle: (names: readonly string[]) => `Nothing here for ${listed(names)}.`,
  promised: (day: string) => `promised ${day}`,
  finish: (day: string) => `planned ${day}`,
  noPromise: 'nothing promised',
  promisedHere: 'promised',
  finishHere: 'finished',
  lateBy: (span: string) => `${span} late`,
  inTime: 'in time',
  nowAt: (time: string) => `now ${time}`,
  restShort: (hours: number) => `${String(hours)} h`,

  legend: 'What the picture says',
  legendCut: 'goes on after a break or a night',
  legendTime:
    'Times are the yard’s. Nights and days off are drawn narrower than they last: hands rest while films harden.',
  legendOff: 'off while others work',
  legendDust: 'dust from elsewhere in the air',
  legendLate: 'late: should have begun, or be over, by now',
  legendSigns: 'On planks too short for words ✓ means done and ! late.',

  state: {
    waiting: 'waits',
    claimed: 'claimed',
    working: 'being worked on',
    paused: 'put aside',
    done: 'done',
    redo: 'has to be done again',
    dropped: 'not done any more',
  },
  stateBy: (state: string, names: readonly string[]) =>
    names.length === 0 ? state : `${state} by ${listed(names)}`,
  air: { clean: 'clean air', dusty: 'makes dust', wet: 'wet work' },
  check: 'done',
  checkSign: '✓',
  checked: (name: string) => `done ${name}`,
  lag: 'late',
  lagSign: '!',
  lagging: (name: string) => `late ${name}`,
  lagWords: { behind: 'should have begun by now', overdue: 'should be over by now' },
  from: 'From',
  until: 'Until',
  day: 'Day',
  task: 'Task',
  part: 'Part',
  space: 'Space',
  who: 'Who',
  airOf: 'Air',
  film: 'Film',
  stateOf: 'State',
  plank: (parts: readonly string[]) => parts.filter((part) => part !== '').join(', '),
  times: (from: string, until: string) => `${from} to ${until}`,
  of: (part: string, boat: string) => `${part}, ${boat}`,
  fixed: 'start set by you',
  crewSet: 'crew set by you',
  float: (span: string) => `can slip ${span} with no boat later`,
  noFloat: 'no boat is later only if it starts on time',
  stageFrom: (stage: string, from: string) => `${stage} from ${from}`,
  window: (task: string, opens: string | null, closes: string | null) => {
    if (opens === null) return `${task}: over by ${closes ?? ''}`;
    return closes === null
      ? `${task}: not before ${opens}`
      : `${task}: not before ${opens}, over by ${closes}`;
  },
  pointHelp: 'Point at a plank to read about it here; press it to open it.',

  chain: 'Why the boats take so long',
  chainOf: 'Boat',
  chainHelp: 'Point at a sentence to see its planks, at a plank to see its sentence.',
  chainEmpty: 'Nothing holds this boat up.',
  stray: 'What this sentence speaks of is not drawn in these days: the plan has it no more.',

  dragTo: (when: string) => `Begins ${when}`,
  dragWith: (name: string) => `with ${name}`,
  dragAsking: 'Looking whether it fits …',
  dragFits: 'It fits. Let go to set it.',
  dragNot: 'Not here:',
  dragBegun: 'It has begun: it cannot be moved any more.',
  dragNext: (when: string) => `The next start that fits: ${when}.`,
} as const;

export const week = inLanguage({ en });
