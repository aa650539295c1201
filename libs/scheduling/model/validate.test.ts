import { describe, expect, it } from 'vitest';
import { range } from '../testing/draw.ts';
import { activity, builder, lag, mode, problem, work } from '../testing/make.ts';
import { plantedProblem, tinyProblem } from '../testing/planted.ts';
import type { FixedWork, Lag, Mode, Problem, StepTable } from './problem.ts';
import { validate } from './validate.ts';

const found = (of: Problem): string[] => validate(of).map(({ code, path }) => `${code} ${path}`);

const ten = mode({ duration: 10 });
const one = (way: Mode, fixed: FixedWork | null = null): Partial<Problem> => ({
  activities: [activity('A', [way], { fixed })],
});
const chain = (...lags: readonly Lag[]): Partial<Problem> => ({
  activities: ['A', 'B', 'C'].map((id) => activity(id, [ten])),
  lags,
});
const shifts = (...spans: readonly (readonly [number, number])[]): Partial<Problem> => ({
  calendars: [
    {
      id: 'c',
      shifts: spans.map(([start, end]) => ({ start, end })),
      breaks: [],
      overtime: [],
      source: 'c',
    },
  ],
});
const pause = (start: number, end: number): Partial<Problem> => ({
  calendars: [
    {
      id: 'c',
      shifts: [
        { start: 0, end: 100 },
        { start: 200, end: 300 },
      ],
      breaks: [{ start, end }],
      overtime: [],
      source: 'c',
    },
  ],
});
const table = (given: Partial<StepTable>): Partial<Problem> => ({
  horizon: 20,
  tables: [{ id: 't', grid: 10, values: [0, 10, 21], source: 't', ...given }],
});
const line = (at: readonly number[], values: readonly number[]): Partial<Problem> => ({
  horizon: 20,
  tables: [{ id: 't', at, values, source: 't' }],
});
const crewOf = (...crew: Mode['crew']): Partial<Problem> => one(mode({ work: 100, crew }));
const tool = {
  id: 'tool',
  steps: [
    { from: 0, capacity: 2 },
    { from: 50, capacity: 3 },
  ],
  calendar: null,
  source: 'tool',
};
const asking = (...amounts: readonly number[]): Partial<Problem> => ({
  resources: [tool],
  ...one(
    mode({ demands: amounts.map((amount) => ({ resource: 0, amount, keptWhilePaused: false })) }),
  ),
});
const branch = (activities: readonly number[], lags: readonly number[]) => ({
  id: 'b',
  activities,
  lags,
});
const choice = (...branches: readonly ReturnType<typeof branch>[]): Partial<Problem> => ({
  ...chain(lag(0, 1, 0)),
  choices: [{ id: 'c', branches, source: 'c' }],
});
const happened = { kind: 'frozen', start: 10, finish: 20, builders: [0] } as const;
const wish = { kind: 'set', start: 10, finish: null, builders: [0] } as const;

const from = (at: number) => ({ at, kind: 'boat', source: 'boat' });
const never = (anchor: 'start' | 'finish', ...spans: readonly (readonly [number, number])[]) => ({
  anchor,
  spans: spans.map(([start, end]) => ({ start, end })),
  kind: 'dew',
  source: 'dew',
});
const cases: readonly (readonly [string, Partial<Problem>, readonly string[]])[] = [
  ['nothing wrong', {}, []],
  ['half a minute of horizon', { horizon: 0.5 }, ['input.field horizon']],
  ['an origin that is no instant', { origin: 'Monday' }, ['input.field origin']],
  ['a negative tolerance', { tolerances: [0, -1, 0] }, ['input.field tolerances[1]']],
  ['shifts that overlap', shifts([0, 10], [9, 20]), ['yard.shifts-overlap calendars[0].shifts[1]']],
  ['shifts that touch', shifts([0, 10], [10, 20]), ['yard.shifts-overlap calendars[0].shifts[1]']],
  ['shifts apart', shifts([0, 10], [11, 20]), []],
  [
    'shifts out of order',
    shifts([20, 30], [0, 10]),
    ['yard.shifts-overlap calendars[0].shifts[1]'],
  ],
  ['an empty shift', shifts([10, 10]), ['input.field calendars[0].shifts[0]']],
  ['a shift from half past', shifts([0.5, 10]), ['input.field calendars[0].shifts[0].start']],
  ['a break in a shift', pause(250, 300), []],
  ['a break out of shifts', pause(50, 101), ['input.field calendars[0].breaks[0]']],
  [
    'two records of one id',
    { builders: [builder('Ada'), builder('Ada')] },
    ['yard.duplicate builders[1].id'],
  ],
  [
    'an unknown calendar',
    { builders: [builder('Ada', { calendar: 1 })] },
    ['yard.reference builders[0].calendar'],
  ],
  [
    'an unknown skill, and no speed',
    {
      builders: [
        builder('Ada', { abilities: [{ skill: 2, level: 1, speed: 0, needsSenior: false }] }),
      ],
    },
    ['yard.reference builders[0].abilities[0].skill', 'input.field builders[0].abilities[0].speed'],
  ],
  [
    'steps that begin late',
    { resources: [{ ...tool, steps: [{ from: 1, capacity: 1 }] }] },
    ['input.field resources[0].steps'],
  ],
  ['no steps', { resources: [{ ...tool, steps: [] }] }, ['input.field resources[0].steps']],
  [
    'steps out of order',
    { resources: [{ ...tool, steps: [...tool.steps, { from: 50, capacity: -1 }] }] },
    ['input.field resources[0].steps[2].capacity', 'input.field resources[0].steps[2].from'],
  ],
  [
    'dust into nowhere',
    {
      spaces: [
        {
          id: 's',
          dustReaches: [
            { space: 0, barrier: null },
            { space: 1, barrier: 0 },
          ],
          settling: 0,
          source: 's',
        },
      ],
    },
    [
      'yard.reference spaces[0].dustReaches[1].space',
      'yard.reference spaces[0].dustReaches[1].barrier',
    ],
  ],
  ['a good table', table({}), []],
  ['a table that falls', table({ values: [0, 10, 9] }), ['input.field tables[0].values[2]']],
  ['a table that is short', table({ values: [0, 10] }), ['input.field tables[0].values']],
  ['a table past never', table({ values: [0, 10, 22] }), ['input.field tables[0].values[2]']],
  ['a table without a grid', table({ grid: 0 }), ['input.field tables[0].grid']],
  ['good lines', line([0, 7, 30], [-3, -3, 21]), []],
  ['lines without knots', line([], []), ['input.field tables[0].at']],
  ['lines of too few values', line([0, 20], [4]), ['input.field tables[0].at']],
  ['lines that begin late', line([1, 20], [4, 9]), ['input.field tables[0].at[0]']],
  ['lines that end early', line([0, 19], [4, 9]), ['input.field tables[0].at']],
  ['knots out of order', line([0, 9, 9, 20], [4, 9, 9, 9]), ['input.field tables[0].at[2]']],
  ['a knot between minutes', line([0, 9.5, 20], [4, 9, 9]), ['input.field tables[0].at[1]']],
  ['a knot before minute 0', line([-1, 20], [4, 9]), ['input.field tables[0].at[0]']],
  ['lines that fall', line([0, 20], [4, 3]), ['input.field tables[0].values[1]']],
  ['a value between minutes', line([0, 20], [4, 4.5]), ['input.field tables[0].values[1]']],
  ['lines past never', line([0, 20], [4, 22]), ['input.field tables[0].values[1]']],
  [
    'lines too steep to be read exactly',
    line([0, 2 ** 30], [-(2 ** 40), 21]),
    ['input.field tables[0].values[1]'],
  ],
  ['no mode', { activities: [activity('A', [])] }, ['input.field activities[0].modes']],
  [
    'time that runs back',
    one(mode({ duration: -1 })),
    ['input.field activities[0].modes[0].duration'],
  ],
  ['a crew without work', one(work(0)), ['input.field activities[0].modes[0].work']],
  [
    'wet work that pauses',
    one(work(1, { air: 'wet', splittable: true })),
    ['input.field activities[0].modes[0].splittable'],
  ],
  [
    'work in no space known',
    one(mode({ space: 0 })),
    ['yard.reference activities[0].modes[0].space'],
  ],
  [
    'a count of nobody',
    crewOf({ skill: 0, minLevel: 1, count: 0 }),
    ['input.field activities[0].modes[0].crew[0].count'],
  ],
  [
    'a skill that nobody has',
    crewOf({ skill: 1, minLevel: 1, count: 1 }),
    ['yard.skill activities[0].modes[0].crew[0]'],
  ],
  [
    'a level that nobody has',
    crewOf({ skill: 0, minLevel: 2, count: 1 }),
    ['yard.skill activities[0].modes[0].crew[0]'],
  ],
  [
    'more people than there are',
    crewOf({ skill: 0, minLevel: 1, count: 3 }),
    ['yard.crew activities[0].modes[0].crew'],
  ],
  [
    'one person needed twice',
    {
      builders: [
        builder('Ada', {
          abilities: [
            { skill: 0, level: 1, speed: 1, needsSenior: false },
            { skill: 1, level: 1, speed: 1, needsSenior: false },
          ],
        }),
      ],
      ...crewOf({ skill: 0, minLevel: 1, count: 1 }, { skill: 1, minLevel: 1, count: 1 }),
    },
    ['yard.crew activities[0].modes[0].crew'],
  ],
  ['the greatest capacity', asking(2, 1), []],
  [
    'more than the greatest capacity',
    asking(2, 2),
    ['input.field activities[0].modes[0].demands[1].amount'],
  ],
  [
    'forbidden spans out of order',
    one(
      mode({
        forbidden: [never('start', [5, 9], [9, 10]), never('finish', [5, 9], [8, 10])],
      }),
    ),
    ['input.field activities[0].modes[0].forbidden[1].spans[1]'],
  ],
  [
    'an early release',
    { activities: [activity('A', [ten], { releases: [from(0), from(-1)] })] },
    ['input.field activities[0].releases[1].at'],
  ],
  [
    'an unknown refit',
    { activities: [activity('A', [ten], { refit: 1 })] },
    ['yard.reference activities[0].refit'],
  ],
  ['frozen work', one(work(1), happened), []],
  [
    'frozen work that nobody could do',
    one(mode({ work: 1, crew: [{ skill: 1, minLevel: 9, count: 7 }] }), happened),
    [],
  ],
  [
    'frozen work without finish and people',
    one(work(1), { ...happened, finish: null, builders: null }),
    ['input.field activities[0].fixed.finish', 'input.field activities[0].fixed.builders'],
  ],
  [
    'frozen work that ends first',
    one(work(1), { ...happened, finish: 9 }),
    ['input.field activities[0].fixed.finish'],
  ],
  ['a wish', one(work(1), wish), []],
  [
    'a wish for too many',
    one(work(1), { ...wish, builders: [0, 1] }),
    ['yard.crew activities[0].fixed.builders'],
  ],
  [
    'a wish for a stranger',
    one(work(1), { ...wish, builders: [2] }),
    ['yard.reference activities[0].fixed.builders[0]'],
  ],
  [
    'a wish before the beginning',
    one(work(1), { ...wish, start: -1 }),
    ['input.field activities[0].fixed.start'],
  ],
  [
    // Two constraints that contradict each other: infeasible, with an explanation.
    'a wish before the release',
    { activities: [activity('A', [work(1)], { releases: [from(11)], fixed: wish })] },
    [],
  ],
  ['a lag from nowhere', chain(lag(3, 0, 1)), ['yard.reference lags[0].from']],
  ['half a minute of lag', chain(lag(0, 1, 0.5)), ['input.field lags[0].fns[0].minutes']],
  [
    'a lag by no table',
    chain(lag(0, 1, 0, { fns: [{ kind: 'table', table: 0 }] })),
    ['yard.reference lags[0].fns[0].table'],
  ],
  ['a choice', choice(branch([0], []), branch([1], [0])), []],
  ['a choice of nothing', choice(), ['input.field choices[0].branches']],
  [
    'an activity in two branches',
    choice(branch([0], []), branch([0], [])),
    ['yard.duplicate choices[0].branches[1].activities[0]'],
  ],
  [
    'a lag in two branches',
    choice(branch([0], [0]), branch([1], [0])),
    ['yard.duplicate choices[0].branches[1].lags[0]'],
  ],
  [
    'an unknown activity in a branch',
    choice(branch([7], [])),
    ['yard.reference choices[0].branches[0].activities[0]'],
  ],
  [
    'two branches that happened',
    {
      ...choice(branch([0], []), branch([1], [])),
      activities: ['A', 'B', 'C'].map((id) => activity(id, [work(1)], { fixed: happened })),
    },
    ['input.field choices[0].branches'],
  ],
  [
    'a promise before the release',
    { refits: [{ id: 'r', release: 9, due: 8, handovers: [], weight: 1, source: 'r' }] },
    ['yard.promise refits[0].due'],
  ],
  [
    'a negative weight',
    { refits: [{ id: 'r', release: 9, due: 9, handovers: [], weight: -1, source: 'r' }] },
    ['input.field refits[0].weight'],
  ],
  ['a chain', chain(lag(0, 1, 5), lag(1, 2, 5)), []],
  ['a circle', chain(lag(0, 1, 0), lag(1, 0, 0)), ['yard.cycle lags']],
  [
    'a closing that is just met',
    chain(lag(0, 1, 5), lag(1, 2, 5), lag(0, 2, 20, { bound: 'close' })),
    [],
  ],
  [
    'a closing that cannot be met',
    chain(lag(0, 1, 5), lag(1, 2, 5), lag(0, 2, 19, { bound: 'close' })),
    ['yard.cycle lags'],
  ],
  [
    'a pot life shorter than the work',
    chain(lag(0, 0, 9, { fromAnchor: 'start', toAnchor: 'finish', bound: 'close' })),
    ['yard.cycle lags'],
  ],
  [
    'a circle in a branch',
    { ...choice(branch([0], [])), ...chain(lag(0, 1, 0), lag(1, 0, 0)) },
    [],
  ],
];

describe('validate', () => {
  it.each(cases)('%s', (_, given, expected) => {
    expect(found(problem(given))).toEqual(expected);
  });

  it('tells every fault with value, words and cure', () => {
    const faults = validate(
      problem({ horizon: -1, ...shifts([5, 5]), ...one(mode({ duration: 1.5 })) }),
    );
    expect(faults.map((fault) => fault.path)).toEqual([
      'horizon',
      'calendars[0].shifts[0]',
      'activities[0].modes[0].duration',
    ]);
    expect(faults[2]).toEqual({
      code: 'input.field',
      path: 'activities[0].modes[0].duration',
      value: 1.5,
      message: '1.5 is not a whole number from 0',
      cure: 'Give a whole number from 0.',
    });
  });

  it('names the activities of each circle, and only them', () => {
    const ids = ['A', 'B', 'C', 'D', 'E'];
    const circles = problem({
      activities: ids.map((id) => activity(id, [ten])),
      lags: [lag(0, 1, 0), lag(1, 2, 0), lag(2, 1, 0), lag(3, 4, 0), lag(4, 3, 0)],
    });
    const faults = validate(circles);
    const named = faults.map((fault) => (fault.value as number[]).toSorted((a, b) => a - b));
    expect(named.toSorted((a, b) => a[0] - b[0])).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(faults.map((fault) => fault.message).sort()[0]).toMatch(
      /^[BC] -> [BC] -> [BC] wait for each other$/,
    );
  });

  it('finds nothing in planted problems', { timeout: 60_000 }, () => {
    for (const seed of range(40)) {
      expect(validate(plantedProblem(seed, 4 + (seed % 37)).problem), `seed ${seed}`).toEqual([]);
      expect(validate(tinyProblem(seed, 2 + (seed % 5)).problem), `seed ${seed}`).toEqual([]);
    }
  });
});
