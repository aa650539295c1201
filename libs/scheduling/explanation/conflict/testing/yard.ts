import type { Constraint } from '../../../model/constraint.ts';
import type { Activity, FixedWork, Lag, Problem } from '../../../model/problem.ts';
import { madeUpYard } from '../../../testing/made-up-yard.ts';
import { activity, builder, lag, mode } from '../../../testing/make.ts';

/** A whole yard (see `madeUpYard`) with one thing in it that cannot be. */
export interface SpoiltYard {
  readonly name: string;
  readonly problem: Problem;
  /** Constraints of which every explanation needs each. */
  readonly cause: readonly Constraint[];
}

/** Tasks of a part of the yard, as `madeUpYard` lays them out. */
const FIT = 0;
const FIRST = 2;
const SECOND = 3;
const PAINT = 7;
const MOUNT = 8;
const TASKS = 9;
const DAY = 1440;

const set = (start: number, builders: readonly number[] | null = null): FixedWork => ({
  kind: 'set',
  start,
  finish: null,
  builders,
});

function altered(
  yard: Problem,
  changes: ReadonlyMap<number, Partial<Activity>>,
  lags: readonly Lag[] = [],
): Problem {
  return {
    ...yard,
    activities: yard.activities.map((one, a) => ({ ...one, ...changes.get(a) })),
    lags: [...yard.lags, ...lags],
  };
}

/** Ways to spoil the yard at one of its parts: `at` gives a task of that part. */
type Spoiler = (yard: Problem, at: (task: number) => number) => Omit<SpoiltYard, 'name'>;

const SPOILERS: readonly (readonly [string, Spoiler])[] = [
  [
    'a window between two tasks that closes before it opens',
    (yard, at) => {
      const window = [
        lag(at(FIRST), at(MOUNT), 5 * DAY, { fromAnchor: 'start' }),
        lag(at(FIRST), at(MOUNT), 4 * DAY, { bound: 'close' }),
      ];
      const cause = [0, 1].map((k): Constraint => ({ kind: 'lag', lag: yard.lags.length + k }));
      return { problem: altered(yard, new Map(), window), cause };
    },
  ],
  [
    'two tasks set to moments in the wrong order',
    (yard, at) => {
      const changes = new Map([
        [at(FIT), { fixed: set(2 * DAY + 600) }],
        [at(MOUNT), { fixed: set(2 * DAY + 480) }],
      ]);
      const cause = [FIT, MOUNT].map((k): Constraint => ({ kind: 'fixed', activity: at(k) }));
      return { problem: altered(yard, changes), cause };
    },
  ],
  [
    'a coat that may begin at no moment',
    (yard, at) => {
      const { modes } = yard.activities[at(FIRST)];
      const never = { start: 0, end: yard.horizon + 1 };
      const spoilt = modes.map((mode) => ({
        ...mode,
        forbidden: [{ anchor: 'start' as const, spans: [never], kind: 'dew', source: 'air' }],
      }));
      const cause = modes.map((_, mode): Constraint => ({
        kind: 'forbidden',
        activity: at(FIRST),
        mode,
        forbidden: 0,
      }));
      return { problem: altered(yard, new Map([[at(FIRST), { modes: spoilt }]])), cause };
    },
  ],
  [
    'one builder asked for twice at a time',
    (yard, at) => {
      const crew = (task: number): Partial<Activity> => ({
        modes: [yard.activities[at(task)].modes[0]],
        fixed: set(3 * DAY + 480, [0]),
      });
      const changes = new Map([
        [at(FIT), crew(FIT)],
        [at(MOUNT), crew(MOUNT)],
      ]);
      const free = yard.lags.filter(({ from, to }) => from !== at(FIT) && to !== at(MOUNT));
      const cause = [FIT, MOUNT].map((k): Constraint => ({ kind: 'fixed', activity: at(k) }));
      return { problem: altered({ ...yard, lags: free, choices: [] }, changes), cause };
    },
  ],
  [
    'more coats on one day than its laminators can lay',
    (yard, at) => {
      const day = 3 * DAY;
      const coats = [FIRST, SECOND, PAINT].flatMap((k) => [at(k), at(k + TASKS)]);
      const changes = new Map(
        coats.map((a) => {
          const modes = yard.activities[a].modes.slice(0, 1).map((mode) => ({
            ...mode,
            work: 30_000,
            forbidden: [
              {
                anchor: 'start' as const,
                spans: [
                  { start: 0, end: day },
                  { start: day + DAY, end: yard.horizon + 1 },
                ],
                kind: 'weather',
                source: 'air',
              },
            ],
          }));
          return [a, { modes }] as const;
        }),
      );
      return { problem: altered({ ...yard, lags: [], choices: [] }, changes), cause: [] };
    },
  ],
];

/** One spoilt yard for each seed, the ways in turn; `parts` of nine tasks each. */
export function spoiltYard(seed: number, parts: number): SpoiltYard {
  const [name, spoil] = SPOILERS[seed % SPOILERS.length];
  const part = seed % (parts - 1);
  const { problem, cause } = spoil(madeUpYard(seed, parts), (task) => part * TASKS + task);
  return { name, problem, cause };
}

/**
 * A yard in the middle of its work: much is done, and of late two surfaces were wiped that are to be
 * laminated before they are stale. Each takes two of those who can do it for more than half of that
 * time: three, and a fourth who is at other work for as long. So the second comes too late whoever
 * does it; of hours there are enough.
 */
export function twiceWipedYard(seed: number, parts: number): Problem {
  const yard = madeUpYard(seed, parts);
  const glazing = yard.skills.length;
  const [shift] = yard.calendars[0].shifts;
  const frozen = (start: number, finish: number): Partial<Activity> => ({
    refit: null,
    fixed: { kind: 'frozen', start, finish, builders: [] },
  });
  const over = Array.from({ length: 40 }, (_, k) =>
    activity(`over-${String(k)}`, [mode({ duration: 30 })], frozen(k, k + 30)),
  );
  const dorit = yard.builders.length;
  const other = activity('other', [mode({ duration: 230 })], {
    refit: null,
    fixed: { kind: 'frozen', start: shift.start, finish: shift.start + 230, builders: [dorit] },
  });
  const wiped = ['keel', 'deck'].map((part) =>
    activity(`wipe-${part}`, [mode({ duration: 15 })], frozen(shift.start - 15, shift.start)),
  );
  const coats = ['keel', 'deck'].map((part) => {
    const crew = [{ skill: glazing, minLevel: 1, count: 2 }];
    return activity(`coat-${part}`, [mode({ work: 26_000, crew, breaks: 'relieved' })]);
  });
  const first = yard.activities.length + over.length + 1;
  const stale = wiped.map((_, k) =>
    lag(first + k, first + wiped.length + k, 240, {
      ...{ id: `stale-${String(k)}`, kind: 'stale', bound: 'close' },
      ...{ fromAnchor: 'start', toAnchor: 'finish' },
    }),
  );
  const abilities = [{ skill: glazing, level: 1, speed: 100, needsSenior: false }];
  return {
    ...yard,
    now: shift.start,
    skills: [...yard.skills, 'glazing'],
    builders: [
      ...yard.builders,
      ...['Dorit', 'Ansa', 'Brit', 'Cleo'].map((name) => builder(name, { abilities })),
    ],
    activities: [...yard.activities, ...over, other, ...wiped, ...coats],
    lags: [...yard.lags, ...stale],
  };
}
