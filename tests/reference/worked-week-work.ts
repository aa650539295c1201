import type { YardInput } from '#planning/yard/yard.ts';

type StepInput = NonNullable<YardInput['procedures']>[number]['steps'][number];
type LinkInput = NonNullable<YardInput['procedures']>[number]['links'][number];
type MaterialInput = NonNullable<YardInput['materials']>[number];
type Milestones = NonNullable<MaterialInput['milestones']>;
type Milestone = Milestones[number]['milestone'];

export const SOURCE = 'Invented for the worked week';

const sheet = (
  times: Partial<Record<Milestone, readonly [at20: number, per10: number]>>,
): Milestones =>
  (Object.entries(times) as [Milestone, readonly [number, number]][]).map(
    ([milestone, [at20, per10]]) => ({
      milestone,
      rows: [5, 10, 15, 20, 25].map((celsius) => ({
        celsius,
        minutes: Math.round(at20 * per10 ** ((20 - celsius) / 10)),
      })),
      source: SOURCE,
      spread: 1,
    }),
  );

const step = (
  id: string,
  name: string,
  skill: string | null,
  minutes: number,
  rest: Partial<StepInput> = {},
): StepInput => ({
  id,
  name,
  effort: { fixed: minutes, source: SOURCE },
  skill,
  crewMin: 1,
  crewMax: 1,
  air: 'clean',
  splittable: false,
  ...rest,
});

const epoxy = { air: 'wet', material: 'epoxy', breaks: 'relieved', cleanDownMinutes: 10 } as const;
const coat = {
  air: 'wet',
  material: 'primer',
  breaks: 'relieved',
  cleanDownMinutes: 10,
} as const;
const dusty = { air: 'dusty', splittable: true } as const;
const two = { crewMin: 2, crewMax: 2 } as const;

const link = (
  from: string,
  to: string,
  opens: Milestone | number = 0,
  closes: Milestone | number | null = null,
): LinkInput => {
  const moment = (at: Milestone | number): NonNullable<LinkInput['opens']> =>
    typeof at === 'number' ? { kind: 'after', minutes: at } : { kind: 'milestone', milestone: at };
  return {
    id: `${from}-${to}`,
    from,
    to,
    opens: moment(opens),
    closes: closes === null ? null : moment(closes),
  };
};

/** From the carrying on, both bulkheads are the same work. */
const fitted: StepInput[] = [
  step('carry', 'Carry it in', 'joinery', 60, { ...two, move: { kind: 'destination' } }),
  step('bed', 'Bed it', 'laminating', 60, epoxy),
  step('tab', 'Tab it', 'laminating', 90, epoxy),
  step('survey', 'Surveyor looks at it', null, 0, { slots: 'surveyor' }),
  step('dress', 'Dress the tabbing', 'finishing', 60, dusty),
];
const fittedLinks: LinkInput[] = [
  link('carry', 'bed'),
  link('bed', 'tab', 'bond-opens', 'bond-closes'),
  link('tab', 'survey', 'handle'),
  link('survey', 'dress'),
  link('tab', 'dress', 'sandable'),
];

const locker: NonNullable<YardInput['procedures']>[number] = {
  id: 'locker-coats',
  version: 1,
  name: 'Two coats in the locker',
  steps: [
    step('key', 'Key and vacuum', 'finishing', 150, dusty),
    step('wipe', 'Wipe', 'finishing', 20),
    step('one', 'First coat', 'finishing', 60, coat),
    step('two', 'Second coat', 'finishing', 60, coat),
    step('abrade', 'Abrade the first coat', 'finishing', 90, dusty),
    step('wipe-again', 'Wipe again', 'finishing', 20),
  ],
  links: [
    link('key', 'wipe'),
    link('wipe', 'one', 15, 60 * 24),
    link('one', 'two', 'bond-opens', 'bond-closes'),
    link('one', 'abrade', 'sandable'),
    link('abrade', 'wipe-again'),
    link('wipe-again', 'two', 15, 240),
  ],
  choices: [
    {
      id: 'next',
      name: 'Bond or abrade',
      branches: [
        { id: 'bond', name: 'while the first coat bonds', steps: [], links: ['one-two'] },
        { id: 'abrade', name: 'abraded', steps: ['abrade', 'wipe-again'], links: [] },
      ],
    },
  ],
};

/** A flow coat, for which the surface stands ready. */
const flowCoat: NonNullable<YardInput['procedures']>[number] = {
  id: 'flow-coat',
  version: 1,
  name: 'Flow coat',
  steps: [
    step('wipe', 'Wipe', 'finishing', 20),
    step('coat', 'Flow coat', 'finishing', 60, { ...coat, material: 'polyester' }),
  ],
  links: [link('wipe', 'coat', 15, 240)],
};

/** A long piece of laminating that must be started when the glass is there, and cleaned up when it is dry. */
const knee: NonNullable<YardInput['procedures']>[number] = {
  id: 'knee',
  version: 1,
  name: 'Knee under the chainplate',
  steps: [
    step('laminate', 'Laminate the knee', 'laminating', 270, epoxy),
    step('strip', 'Pull the tape and clean up', 'finishing', 20),
  ],
  links: [link('laminate', 'strip', 'tack-free')],
};

/** Invented sheets, taken at their word: the weather of the week is known, and so is every time. */
export const materials: readonly MaterialInput[] = [
  {
    id: 'epoxy',
    name: 'Epoxy',
    resinSystem: 'epoxy',
    use: 'laminating',
    surface: 'sealed',
    waxed: false,
    blushes: false,
    minimumC: 5,
    maximumC: 35,
    belowMinimum: 'stalls',
    milestones: sheet({
      'bond-opens': [100, 1.9],
      'bond-closes': [480, 1.9],
      'tack-free': [360, 1.9],
      'dust-safe': [240, 1.9],
      handle: [850, 2.2],
      sandable: [900, 3],
    }),
  },
  {
    id: 'polyester',
    name: 'Polyester flow coat',
    resinSystem: 'polyester',
    use: 'finish',
    surface: 'sealed',
    waxed: true,
    blushes: false,
    minimumC: 12,
    maximumC: 35,
    belowMinimum: 'spoils',
    milestones: sheet({
      'tack-free': [240, 2],
      'dust-safe': [200, 2],
    }),
  },
  {
    id: 'primer',
    name: 'Epoxy primer',
    resinSystem: 'epoxy',
    use: 'finish',
    surface: 'sealed',
    waxed: false,
    blushes: false,
    minimumC: 3,
    maximumC: 35,
    belowMinimum: 'stalls',
    milestones: sheet({
      'bond-opens': [240, 1.9],
      'bond-closes': [480, 1.9],
      'tack-free': [400, 1.9],
      'dust-safe': [240, 1.9],
      sandable: [900, 3],
    }),
  },
];

/** What is done to the parts of `worked-week.md`. */
export const procedures: NonNullable<YardInput['procedures']> = [
  { id: 'bulkhead', version: 1, name: 'Fit a bulkhead', steps: fitted, links: fittedLinks },
  {
    id: 'panel',
    version: 1,
    name: 'Make a panel and fit it',
    steps: [
      step('cut', 'Cut the core', 'joinery', 60, { ...dusty }),
      step('skin', 'Laminate the panel', 'laminating', 90, epoxy),
      ...fitted,
    ],
    links: [link('cut', 'skin', 30), link('skin', 'carry', 'handle'), ...fittedLinks],
  },
  locker,
  flowCoat,
  knee,
  {
    id: 'lift',
    version: 1,
    name: 'Lift her out',
    steps: [step('lift', 'Lift her out', 'joinery', 60, { ...two, slots: 'crane' })],
    links: [],
  },
];
