import { random as seeded } from '#kernel/random.ts';
import type { Constraint } from '../../model/constraint.ts';
import type { Activity, FixedWork, LagTable, Mode, Problem } from '../../model/problem.ts';
import { activity, builder, lag, problem, work } from '../../testing/make.ts';

/** A small problem that has plans, but for one contradiction. */
export interface Contradiction {
  readonly name: string;
  readonly problem: Problem;
  /** Constraints of which every explanation needs each. */
  readonly cause: readonly Constraint[];
}

/** Draws a whole number from `least` to `most`. */
type Draw = (least: number, most: number) => number;

/** What a contradiction changes in a problem of five short tasks, the first three one after the other. */
interface Change {
  readonly given?: Partial<Problem>;
  /** By activity 3 and 4. */
  readonly modes?: readonly [Partial<Mode>, Partial<Mode>];
  readonly tasks?: readonly [Partial<Activity>, Partial<Activity>];
  readonly cause: readonly Constraint[];
}

/** One day. */
const HORIZON = 1200;
const [twoDays] = problem().calendars;
const day = { ...twoDays, shifts: [twoDays.shifts[0]], breaks: [twoDays.breaks[0]] };

const set = (start: number, builders: readonly number[] | null = null): FixedWork => ({
  kind: 'set',
  start,
  finish: null,
  builders,
});

const fixed = (a: number): Constraint => ({ kind: 'fixed', activity: a });
const release = (a: number): Constraint => ({ kind: 'release', activity: a, release: 0 });
const from = (at: number): Activity['releases'] => [{ at, kind: 'boat', source: 'boat' }];

const bay = { id: 'bay', dustReaches: [{ space: 0, barrier: null }], settling: 20, source: 'bay' };
const booth = { id: 'booth', dustReaches: [], settling: 0, source: 'booth' };
const stand = {
  id: 'stand',
  steps: [{ from: 0, capacity: 1 }],
  calendar: null,
  source: 'stand',
};
const demand = { resource: 0, amount: 1, keptWhilePaused: false };
const everywhere: Mode['forbidden'] = [
  { anchor: 'start', spans: [{ start: 0, end: HORIZON }], kind: 'climate', source: 'night' },
];
/** So many minutes after the anchor, as a table. */
const after = (id: string, minutes: number): LagTable => ({
  id,
  grid: 20,
  values: Array.from({ length: HORIZON / 20 + 1 }, (_, k) =>
    Math.min(HORIZON + 1, 20 * k + minutes),
  ),
  source: id,
});
/** The same to the minute, as lines. */
const line = (id: string, minutes: number): LagTable => ({
  id,
  at: [0, HORIZON + 1 - minutes, HORIZON],
  values: [minutes, HORIZON + 1, HORIZON + 1],
  source: id,
});
const chain = [lag(0, 1, 10), lag(1, 2, 10)];

const KINDS: readonly (readonly [string, (draw: Draw) => Change])[] = [
  [
    'a window that closes before it opens',
    (draw) => {
      const opens = draw(100, 200);
      const closes = opens - draw(20, 60);
      const window = [
        lag(3, 4, 0, { fns: [{ kind: 'table', table: 0 }] }),
        lag(3, 4, 0, { fns: [{ kind: 'table', table: 1 }], bound: 'close' }),
      ];
      return {
        given: {
          lags: [...chain, ...window],
          tables: [after('opens', opens), line('closes', closes)],
        },
        cause: [
          { kind: 'lag', lag: 2 },
          { kind: 'lag', lag: 3 },
        ],
      };
    },
  ],
  [
    'a circle of lags',
    (draw) => ({
      given: {
        lags: [...chain, lag(2, 0, 0, { fns: [{ kind: 'table', table: 0 }] })],
        tables: [after('cure', draw(0, 30))],
      },
      cause: [0, 1, 2].map((l) => ({ kind: 'lag', lag: l })),
    }),
  ],
  [
    'work set before its delivery',
    (draw) => {
      const at = draw(500, 600);
      return {
        tasks: [{ fixed: set(at), releases: from(at + draw(1, 60)) }, {}],
        cause: [fixed(3), release(3)],
      };
    },
  ],
  [
    'a slot before the delivery',
    (draw) => {
      const start = draw(480, 560);
      const slot = { start, end: start + 120, cost: 5, bookBy: 0 };
      return {
        given: { slotLists: [{ id: 'crane', slots: [slot], source: 'crane' }] },
        modes: [{ slots: 0 }, {}],
        tasks: [{ releases: from(start + draw(100, 200)) }, {}],
        cause: [{ kind: 'slots', slotList: 0 }, release(3)],
      };
    },
  ],
  [
    'nobody with the skill on shift',
    (draw) => ({
      given: {
        calendars: [
          day,
          { ...day, id: 'brief', shifts: [{ start: 500, end: 500 + draw(5, 25) }], breaks: [] },
        ],
        builders: [
          builder('Ada'),
          builder('Bo', {
            calendar: 1,
            abilities: [{ skill: 1, level: 1, speed: 100, needsSenior: false }],
          }),
        ],
      },
      modes: [{ crew: [{ skill: 1, minLevel: 1, count: 1 }] }, {}],
      cause: [
        { kind: 'crew', activity: 3 },
        { kind: 'calendar', builder: 1 },
      ],
    }),
  ],
  [
    'somebody set who does not have the skill',
    (draw) => ({
      given: {
        builders: [
          builder('Ada'),
          builder('Bo', {
            abilities: [{ skill: 1, level: draw(1, 3), speed: 100, needsSenior: false }],
          }),
        ],
      },
      tasks: [{ fixed: { kind: 'set', start: null, finish: null, builders: [1] } }, {}],
      cause: [{ kind: 'crew', activity: 3 }, fixed(3)],
    }),
  ],
  [
    'work longer than any shift',
    (draw) => ({
      modes: [{ work: 100 * draw(481, 700) }, {}],
      cause: [
        { kind: 'crew', activity: 3 },
        { kind: 'calendar', builder: 0 },
        { kind: 'calendar', builder: 1 },
      ],
    }),
  ],
  [
    'a mould that is held',
    (draw) => {
      const at = draw(480, 520);
      const fns = [{ kind: 'constant', minutes: draw(150, 200) }] as const;
      return {
        given: {
          resources: [stand],
          holds: [
            {
              id: 'mould',
              activity: 3,
              resource: 0,
              amount: 1,
              ends: [{ kind: 'lag', fns }],
              source: 'mould',
            },
          ],
        },
        modes: [{}, { demands: [demand] }],
        tasks: [{ fixed: set(at) }, { fixed: set(at + draw(110, 140)) }],
        cause: [{ kind: 'hold', hold: 0 }, { kind: 'resource', resource: 0 }, fixed(3), fixed(4)],
      };
    },
  ],
  [
    'a part that is elsewhere',
    () => ({
      given: { spaces: [bay, booth], parts: [{ id: 'hatch', space: 0, source: 'hatch' }] },
      modes: [{ space: 1 }, {}],
      tasks: [{ parts: [0] }, {}],
      cause: [{ kind: 'part', part: 0 }],
    }),
  ],
  [
    'a part wanted twice',
    (draw) => ({
      given: { parts: [{ id: 'hatch', space: 0, source: 'hatch' }], spaces: [booth] },
      tasks: [
        { parts: [0], fixed: set(draw(480, 500)) },
        { parts: [0], fixed: set(draw(501, 509)) },
      ],
      cause: [{ kind: 'part', part: 0 }, fixed(3), fixed(4)],
    }),
  ],
  [
    'too little of a stock',
    (draw) => {
      const amount = draw(6, 9);
      const consumes = [{ stock: 0, amount }];
      return {
        given: { stocks: [{ id: 'resin', total: 2 * amount - 1, source: 'resin' }] },
        modes: [{ consumes }, { consumes }],
        cause: [{ kind: 'stock', stock: 0 }],
      };
    },
  ],
  [
    'a window behind work that is done',
    (draw) => ({
      given: { lags: [...chain, lag(3, 4, draw(30, 60), { bound: 'close' })] },
      tasks: [
        { fixed: { kind: 'frozen', start: 480, finish: 540, builders: [0] } },
        { releases: from(draw(620, 700)) },
      ],
      cause: [fixed(3), { kind: 'lag', lag: 2 }, release(4)],
    }),
  ],
  [
    'dust on wet work',
    (draw) => ({
      given: { spaces: [bay] },
      modes: [
        { space: 0, air: 'dusty' },
        { space: 0, air: 'wet' },
      ],
      tasks: [{ fixed: set(draw(480, 500)) }, { fixed: set(draw(501, 520)) }],
      cause: [{ kind: 'dust', from: 0, to: 0 }, fixed(3), fixed(4)],
    }),
  ],
  [
    'dust on an open surface',
    (draw) => {
      const until = [{ kind: 'constant', minutes: draw(180, 230) }] as const;
      return {
        given: {
          spaces: [bay],
          surfaces: [{ id: 'film', activity: 4, until, coveredBy: [], source: 'film' }],
        },
        modes: [{ space: 0, air: 'dusty' }, { space: 0 }],
        tasks: [{ fixed: set(draw(600, 620)) }, { fixed: set(draw(480, 500)) }],
        cause: [
          { kind: 'surface', surface: 0 },
          { kind: 'dust', from: 0, to: 0 },
          fixed(3),
          fixed(4),
        ],
      };
    },
  ],
  [
    'no permitted moment',
    () => ({
      modes: [{ forbidden: everywhere }, {}],
      cause: [{ kind: 'forbidden', activity: 3, mode: 0, forbidden: 0 }],
    }),
  ],
  [
    'one builder in two places',
    (draw) => ({
      tasks: [{ fixed: set(draw(480, 500), [0]) }, { fixed: set(draw(501, 509), [0]) }],
      cause: [{ kind: 'builder', builder: 0 }, fixed(3), fixed(4)],
    }),
  ],
  [
    'two acts on one door',
    (draw) => {
      const barrier = { barrier: 0, closes: true };
      return {
        given: { barriers: [{ id: 'door', closed: false, source: 'door' }] },
        modes: [{ barrier }, { barrier }],
        tasks: [{ fixed: set(draw(480, 500)) }, { fixed: set(draw(501, 509)) }],
        cause: [{ kind: 'barrier', barrier: 0 }, fixed(3), fixed(4)],
      };
    },
  ],
  [
    'a machine that is off',
    (draw) => ({
      given: {
        calendars: [
          day,
          { ...day, id: 'brief', shifts: [{ start: 500, end: 500 + draw(5, 25) }], breaks: [] },
        ],
        resources: [{ ...stand, calendar: 1 }],
      },
      modes: [{ demands: [demand] }, {}],
      cause: [{ kind: 'hours', resource: 0 }],
    }),
  ],
  [
    'a choice of nothing',
    () => ({
      given: {
        choices: [
          {
            id: 'bond',
            source: 'bond',
            branches: [3, 4].map((a) => ({ id: String(a), activities: [a], lags: [] })),
          },
        ],
      },
      modes: [{ forbidden: everywhere }, { forbidden: everywhere }],
      cause: [3, 4].map((a) => ({ kind: 'forbidden', activity: a, mode: 0, forbidden: 0 })),
    }),
  ],
];

/** One contradiction for each seed, the kinds in turn. */
export function plantedContradiction(seed: number): Contradiction {
  const random = seeded(seed + 1);
  const draw: Draw = (least, most) => least + random.below(most - least + 1);
  const [name, change] = KINDS[seed % KINDS.length];
  const { given, modes = [{}, {}], tasks = [{}, {}], cause } = change(draw);
  const task = (a: number): Activity => {
    const own = a < 3 ? {} : modes[a - 3];
    return activity(`task-${String(a)}`, [work(draw(30, 60), own)], a < 3 ? {} : tasks[a - 3]);
  };
  return {
    name,
    problem: problem({
      horizon: HORIZON,
      calendars: [day],
      lags: chain,
      ...given,
      activities: [0, 1, 2, 3, 4].map(task),
    }),
    cause,
  };
}
