import { describe, expect, it } from 'vitest';
import { activity, builder, mode, problem, work } from '../../testing/make.ts';
import type {
  Activity,
  Hold,
  HoldEnd,
  LagFunctions,
  Mode,
  OpenSurface,
  Overtime,
  Problem,
  PublishedTask,
  Slot,
} from '../problem.ts';
import { validate } from '../validate.ts';

const found = (given: Partial<Problem>): string[] =>
  validate(problem(given)).map(({ code, path }) => `${code} ${path}`);
const cases = (list: readonly (readonly [string, Partial<Problem>, readonly string[]])[]): void => {
  it.each(list)('%s', (_, given, expected) => {
    expect(found(given)).toEqual(expected);
  });
};

const ten = mode({ duration: 10 });
const minutes = (...all: readonly number[]): LagFunctions =>
  all.map((each) => ({ kind: 'constant', minutes: each }) as const);
const space = (id: string) => ({ id, dustReaches: [], settling: 0, source: id });
/** An activity of one mode in a yard of a space, a part, a door and a tool of three. */
const doing = (way: Partial<Mode>, given: Partial<Activity> = {}): Partial<Problem> => ({
  spaces: [space('bench')],
  parts: [{ id: 'hatch', space: 0, source: 'hatch' }],
  barriers: [{ id: 'door', closed: false, source: 'door' }],
  resources: [{ id: 'tool', steps: [{ from: 0, capacity: 3 }], calendar: null, source: 'tool' }],
  activities: [activity('A', [mode({ duration: 10, ...way })], given), activity('B', [ten])],
});
const own = 'activities[0].modes[0]';

describe('the moment of the question', () => {
  cases([
    ['at the horizon', { horizon: 9, now: 9 }, []],
    ['after the horizon', { horizon: 9, now: 10 }, ['input.field now']],
    ['before the beginning', { now: -1 }, ['input.field now']],
  ]);
});

describe('overtime', () => {
  const overtime = (...spans: readonly Omit<Overtime, 'cost'>[]): Partial<Problem> => ({
    calendars: [
      {
        id: 'c',
        shifts: [{ start: 100, end: 200 }],
        breaks: [],
        overtime: spans.map((span) => ({ cost: 1, ...span })),
        source: 'c',
      },
    ],
  });
  const path = 'calendars[0].overtime[0]';
  cases([
    [
      'that touches the shift and itself',
      overtime({ start: 50, end: 100 }, { start: 200, end: 210 }, { start: 210, end: 220 }),
      [],
    ],
    ['into the shift', overtime({ start: 50, end: 101 }), [`yard.shifts-overlap ${path}`]],
    ['from the shift', overtime({ start: 199, end: 210 }), [`yard.shifts-overlap ${path}`]],
    ['in the shift', overtime({ start: 120, end: 130 }), [`yard.shifts-overlap ${path}`]],
    ['over the shift', overtime({ start: 50, end: 250 }), [`yard.shifts-overlap ${path}`]],
    [
      'that overlaps',
      overtime({ start: 10, end: 20 }, { start: 19, end: 30 }),
      ['input.field calendars[0].overtime[1]'],
    ],
    ['of no time', overtime({ start: 10, end: 10 }), [`input.field ${path}`]],
    [
      'that earns money',
      {
        calendars: [{ ...problem().calendars[0], overtime: [{ start: 0, end: 9, cost: -1 }] }],
      },
      [`input.field ${path}.cost`],
    ],
  ]);
});

describe('supply', () => {
  const slot = (given: Partial<Slot> = {}): Slot => ({
    start: 0,
    end: 20,
    cost: 0,
    bookBy: 0,
    ...given,
  });
  const slots = (...all: readonly Slot[]): Partial<Problem> => ({
    slotLists: [{ id: 'crane', slots: all, source: 'crane' }],
  });
  const path = 'slotLists[0].slots';
  cases([
    [
      'a resource of no calendar known',
      { resources: [{ id: 't', steps: [{ from: 0, capacity: 1 }], calendar: 1, source: 't' }] },
      ['yard.reference resources[0].calendar'],
    ],
    [
      'less than nothing in stock',
      { stocks: [{ id: 's', total: -1, source: 's' }] },
      ['input.field stocks[0].total'],
    ],
    [
      'a part in no space known',
      { parts: [{ id: 'p', space: 0, source: 'p' }] },
      ['yard.reference parts[0].space'],
    ],
    [
      'two doors of one id',
      {
        barriers: [
          { id: 'd', closed: true, source: 'd' },
          { id: 'd', closed: true, source: 'd' },
        ],
      },
      ['yard.duplicate barriers[1].id'],
    ],
    ['slots that overlap', slots(slot(), slot({ start: 5, end: 9 }), slot({ start: 5 })), []],
    ['slots out of order', slots(slot({ start: 1 }), slot()), [`input.field ${path}[1].start`]],
    ['a slot of no time', slots(slot({ end: 0 })), [`input.field ${path}[0]`]],
    [
      'half numbers',
      slots(slot({ end: 0.5, cost: -1, bookBy: 0.5 })),
      [
        `input.field ${path}[0].end`,
        `input.field ${path}[0].cost`,
        `input.field ${path}[0].bookBy`,
      ],
    ],
    [
      'a builder who pays',
      { builders: [builder('Ada', { cost: -1 })] },
      ['input.field builders[0].cost'],
    ],
  ]);

  const eats = (...amounts: readonly number[]): Partial<Problem> => ({
    stocks: [{ id: 'resin', total: 5, source: 'resin' }],
    ...doing({ consumes: amounts.map((amount) => ({ stock: 0, amount })) }),
  });
  cases([
    ['all there is of a stock', eats(2, 3), []],
    ['more than there is of a stock', eats(2, 4), [`input.field ${own}.consumes[1].amount`]],
    ['less than nothing', eats(-1), [`input.field ${own}.consumes[0].amount`]],
    ['an unknown stock', { ...eats(1), stocks: [] }, [`yard.reference ${own}.consumes[0].stock`]],
  ]);
});

describe('modes', () => {
  const crewed = { crew: work(1).crew, work: 1000 };
  cases([
    ['clean-down of a crew', doing({ ...crewed, cleanDown: 5 }), []],
    ['clean-down by nobody', doing({ cleanDown: 5 }), [`input.field ${own}.cleanDown`]],
    [
      'clean-down of work that pauses',
      doing({ ...crewed, cleanDown: 5, splittable: true }),
      [`input.field ${own}.cleanDown`],
    ],
    ['less than no clean-down', doing({ cleanDown: -1 }), [`input.field ${own}.cleanDown`]],
    ['a mode that earns money', doing({ cost: -1 }), [`input.field ${own}.cost`]],
    ['a move', doing({ movesTo: 0 }, { parts: [0] }), []],
    ['a move of nothing', doing({ movesTo: 0 }), [`input.field ${own}.movesTo`]],
    ['a move to nowhere', doing({ movesTo: 1 }, { parts: [0] }), [`yard.reference ${own}.movesTo`]],
    [
      'a move in no time',
      doing({ movesTo: 0, duration: 0 }, { parts: [0] }),
      [`input.field ${own}.movesTo`],
    ],
    ['a move by a crew', doing({ movesTo: 0, duration: 0, ...crewed }, { parts: [0] }), []],
    ['an act', doing({ barrier: { barrier: 0, closes: true } }), []],
    [
      'an act on no door known',
      doing({ barrier: { barrier: 1, closes: true } }),
      [`yard.reference ${own}.barrier.barrier`],
    ],
    [
      'an act in no time',
      doing({ duration: 0, barrier: { barrier: 0, closes: true } }),
      [`input.field ${own}.barrier`],
    ],
    ['a part twice', doing({}, { parts: [0, 0] }), ['yard.duplicate activities[0].parts[1]']],
    ['a part unknown', doing({}, { parts: [1] }), ['yard.reference activities[0].parts[0]']],
  ]);

  const happened = (finish: number, way: Partial<Mode>): Partial<Problem> =>
    doing(way, { parts: [0], fixed: { kind: 'frozen', start: -5, finish, builders: [] } });
  cases([
    ['a move that happened', happened(-4, { movesTo: 0 }), []],
    [
      'a move that happened in no time',
      happened(-5, { movesTo: 0 }),
      ['input.field activities[0].fixed.finish'],
    ],
    [
      'an act that happened in no time',
      happened(-5, { barrier: { barrier: 0, closes: true } }),
      ['input.field activities[0].fixed.finish'],
    ],
    ['other work that happened in no time', happened(-5, {}), []],
  ]);

  const slot = (end: number, bookBy: number): Slot => ({ start: 0, end, cost: 0, bookBy });
  const lifting = (
    way: Mode,
    slots: readonly Slot[],
    fixed: Activity['fixed'] = null,
  ): Partial<Problem> => ({
    now: 30,
    slotLists: [{ id: 'crane', slots, source: 'crane' }],
    activities: [activity('lift', [{ ...way, slots: 0 }], { fixed })],
  });
  const lift = work(60, { cleanDown: 5 });
  cases([
    ['a slot that is just long enough', lifting(lift, [slot(9, 30), slot(65, 30)]), []],
    [
      'slots that are too short',
      lifting(lift, [slot(64, 30)]),
      ['input.field activities[0].modes'],
    ],
    ['slots that are gone', lifting(lift, [slot(99, 29)]), ['input.field activities[0].modes']],
    [
      'one too short and one gone',
      lifting(lift, [slot(64, 30), slot(65, 29)]),
      ['input.field activities[0].modes'],
    ],
    [
      'one mode that fits no slot and one that does',
      {
        ...lifting(lift, []),
        slotLists: [{ id: 'crane', slots: [slot(10, 30)], source: 'crane' }],
        activities: [
          activity('lift', [
            { ...lift, slots: 0 },
            { ...ten, slots: 0 },
          ]),
        ],
      },
      [],
    ],
    ['no slots', lifting(ten, []), ['input.field activities[0].modes']],
    [
      'no slots for what has happened',
      lifting(ten, [], { kind: 'frozen', start: 0, finish: 10, builders: [] }),
      [],
    ],
    ['an unknown list', { ...lifting(ten, []), slotLists: [] }, [`yard.reference ${own}.slots`]],
  ]);
});

describe('what work leaves behind', () => {
  const surface = (given: Partial<OpenSurface>, way: Partial<Mode> = {}): Partial<Problem> => ({
    ...doing({ space: 0, ...way }, { parts: [0] }),
    surfaces: [
      {
        id: 'film',
        activity: 0,
        until: minutes(1),
        coveredBy: [1],
        source: 'film',
        ...given,
      },
    ],
  });
  cases([
    ['a film of clean work', surface({}), []],
    ['a film of wet work', surface({}, { air: 'wet' }), []],
    ['a film of dusty work', surface({}, { air: 'dusty' }), ['input.field surfaces[0].activity']],
    ['a film in no space', surface({}, { space: null }), ['input.field surfaces[0].activity']],
    ['a film of a move', surface({}, { movesTo: 0 }), ['input.field surfaces[0].activity']],
    ['a film of nobody', surface({ activity: 2 }), ['yard.reference surfaces[0].activity']],
    ['a film for two modes', surface({ until: minutes(1, 2) }), ['input.field surfaces[0].until']],
    [
      'half a minute',
      surface({ until: minutes(0.5) }),
      ['input.field surfaces[0].until[0].minutes'],
    ],
    [
      'a cover that is none, and one twice',
      surface({ coveredBy: [2, 1, 1] }),
      ['yard.reference surfaces[0].coveredBy[0]', 'yard.duplicate surfaces[0].coveredBy[2]'],
    ],
    ['a cover by itself', surface({ coveredBy: [0] }), ['input.field surfaces[0].coveredBy']],
  ]);

  const until = (of: number): HoldEnd => ({ kind: 'activity', activity: of, anchor: 'start' });
  const hold = (given: Partial<Hold>): Partial<Problem> => ({
    ...doing({}),
    holds: [
      { id: 'h', activity: 0, resource: 0, amount: 3, ends: [until(1)], source: 'h', ...given },
    ],
  });
  cases([
    ['a hold of all there is', hold({}), []],
    ['a hold of nothing', hold({ amount: 0 }), []],
    ['a hold of more than there is', hold({ amount: 4 }), ['input.field holds[0].amount']],
    ['a hold of less than nothing', hold({ amount: -1 }), ['input.field holds[0].amount']],
    ['a hold of an unknown thing', hold({ resource: 1 }), ['yard.reference holds[0].resource']],
    ['a hold by nobody', hold({ activity: 2 }), ['yard.reference holds[0].activity']],
    ['a hold without end', hold({ ends: [] }), ['input.field holds[0].ends']],
    [
      'ends that are none',
      hold({ ends: [until(2), until(0), { kind: 'lag', fns: minutes() }] }),
      [
        'yard.reference holds[0].ends[0].activity',
        'input.field holds[0].ends[1].activity',
        'input.field holds[0].ends[2].fns',
      ],
    ],
  ]);
});

describe('what is wished', () => {
  const handed = (...handovers: readonly number[]): Partial<Problem> => ({
    refits: [{ ...problem().refits[0], handovers }],
  });
  const told = (...tasks: readonly Partial<PublishedTask>[]): Partial<Problem> => ({
    activities: [activity('A', [ten]), activity('B', [ten])],
    published: {
      tolerance: 5,
      tasks: tasks.map((task, i) => ({
        activity: i,
        start: -5,
        builders: [0, 1],
        weight: 1,
        ...task,
      })),
    },
  });
  cases([
    ['handovers', handed(5, 6), []],
    ['a handover twice', handed(5, 5), ['input.field refits[0].handovers[1]']],
    ['half a handover', handed(0.5), ['input.field refits[0].handovers[0]']],
    ['a published plan', told({}, {}), []],
    [
      'less than no tolerance',
      { published: { tolerance: -1, tasks: [] } },
      ['input.field published.tolerance'],
    ],
    ['a task unknown', told({ activity: 2 }), ['yard.reference published.tasks[0].activity']],
    ['a task twice', told({}, { activity: 0 }), ['yard.duplicate published.tasks[1].activity']],
    [
      'a task of strangers, at no time, of no worth',
      told({ builders: [0, 0, 2], start: 0.5, weight: -1 }),
      [
        'input.field published.tasks[0].start',
        'input.field published.tasks[0].weight',
        'yard.duplicate published.tasks[0].builders[1]',
        'yard.reference published.tasks[0].builders[2]',
      ],
    ],
  ]);
});
