import { describe, expect, it } from 'vitest';
import { DomainError, type Fault } from '#kernel/error.ts';
import { validate } from '#scheduling/model/validate.ts';
import { smallYard } from '../testing/small-yard.ts';
import { makeWorkload } from '../workload/make.ts';
import type { Task, Workload } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { compile, type Compiled } from './compile.ts';
import { problemHash } from './hash.ts';

/** Compiles a changed small yard, and sees to it that the engine would take the problem. */
function compiled(
  change: (draft: Yard) => void = () => undefined,
  begun: Record<string, Partial<Task>> = {},
): Compiled {
  const yard = smallYard(change);
  const made = makeWorkload(yard);
  const workload: Workload = {
    ...made,
    tasks: made.tasks.map((task) => ({ ...task, ...begun[task.id] })),
  };
  const result = compile({ yard, workload });
  expect(validate(result.problem)).toEqual([]);
  return result;
}

function faultsOf(change: (draft: Yard) => void): readonly Fault[] {
  try {
    compiled(change);
  } catch (error) {
    if (error instanceof DomainError) return error.faults;
    throw error;
  }
  throw new Error('the yard compiled');
}

/** Makes the bond window binding: no choice, no preparation. */
function onlyBond(yard: Yard): void {
  const [procedure] = yard.procedures;
  procedure.steps = procedure.steps.filter(({ id }) => id !== 'key');
  procedure.links = procedure.links.filter(({ id }) => id === 'sand-one' || id === 'bond');
  procedure.choices = [];
}

const heat = (yard: Yard, celsius: number): void => {
  yard.spaces[0].climate = {
    kind: 'heated',
    setPoints: [{ weekdays: [1], from: '00:00', celsius }],
  };
};

describe('compile', () => {
  it('counts shifts in minutes from the plan’s beginning', () => {
    const { problem, map } = compiled();
    expect(problem.origin).toBe('2026-11-02T08:00:00.000Z');
    expect(problem.horizon).toBe(14 * 1440);
    expect(problem.calendars[0].shifts.slice(0, 2)).toEqual([
      { start: 0, end: 480 },
      { start: 1440, end: 1920 },
    ]);
    expect(map.tasks).toEqual(['lid.sand', 'lid.one', 'lid.key', 'lid.two']);
    expect(problem.refits[0]).toMatchObject({ release: 0, due: 4 * 1440 + 480, weight: 1 });
    expect(problem.activities[1]).toMatchObject({ source: 'task:lid.one', refit: 0 });
    expect(problem.activities[1].modes[0]).toMatchObject({
      work: 6000,
      air: 'wet',
      splittable: false,
    });
  });

  it('opens a window from the finish to the start and closes it from the start to the finish', () => {
    const { problem } = compiled();
    const bond = problem.lags.filter(({ source }) => source === 'link:lid.bond');
    expect(
      bond.map(({ bound, fromAnchor, toAnchor, kind }) => [bound, fromAnchor, toAnchor, kind]),
    ).toEqual([
      ['open', 'finish', 'start', 'bond'],
      ['close', 'start', 'finish', 'bond'],
    ]);
    const values = bond.map(({ fn }) =>
      fn.kind === 'table' ? problem.tables[fn.table].values : [],
    );
    // 20 degrees always: bonds from 120 to 360 minutes on, whenever it was laid.
    expect(values.map((list) => list.slice(0, 3))).toEqual([
      [120, 125, 130],
      [360, 365, 370],
    ]);
    expect(values[0].at(-1)).toBe(problem.horizon + 1);
  });

  it('follows the sweep where the follow-up goes over the surface in the same order', () => {
    const { problem } = compiled((yard) => (yard.procedures[0].links[1].sweep = 'same'));
    const bond = problem.lags.filter(({ source }) => source === 'link:lid.bond');
    expect(
      bond.map(({ bound, fromAnchor, toAnchor }) => `${bound} ${fromAnchor} ${toAnchor}`),
    ).toEqual([
      'open start start',
      'open finish finish',
      'close start start',
      'close finish finish',
    ]);
  });

  it('has one table for equal films and one mode for each head-count', () => {
    const one = compiled();
    const more = compiled((yard) => {
      const { parts } = yard.boats[0].refits[0];
      parts.push({
        ...parts[0],
        id: 'hatch',
        jobs: [{ id: 'hatch', procedure: 'two-coats', after: [] }],
      });
      yard.people.push({ ...yard.people[0], id: 'bo', name: 'Bo' });
      yard.procedures[0].steps[0].crewMax = 5;
    });
    expect(more.problem.tables.map(({ id }) => id)).toEqual(one.problem.tables.map(({ id }) => id));
    expect(more.problem.activities[0].modes.map(({ crew }) => crew[0].count)).toEqual([1, 2]);
  });

  it('uses the colder and the warmer of two places a part may be in', () => {
    const { problem } = compiled((yard) => {
      yard.spaces.push({
        ...yard.spaces[0],
        id: 'cold',
        name: 'Cold',
        climate: { kind: 'heated', setPoints: [{ weekdays: [1], from: '00:00', celsius: 10 }] },
      });
      yard.procedures[0].steps[3].space = 'cold';
    });
    const values = problem.lags
      .filter(({ source }) => source === 'link:lid.bond')
      .map(({ fn }) => (fn.kind === 'table' ? problem.tables[fn.table].values[0] : -1));
    expect(values).toEqual([240, 360]); // opens as at 10 degrees, closes as at 20
  });

  it('reckons with a place where the part is worked on between, on any way that the link is for', () => {
    const { problem } = compiled((yard) => {
      yard.spaces.push({
        ...yard.spaces[0],
        id: 'cold',
        name: 'Cold',
        climate: { kind: 'heated', setPoints: [{ weekdays: [1], from: '00:00', celsius: 10 }] },
      });
      yard.spaces.push({ ...yard.spaces[0], id: 'far', name: 'Far' });
      const [{ steps, links }] = yard.procedures;
      steps[2].space = 'far';
      steps.push({ ...steps[0], id: 'look', name: 'Look at it', space: 'cold' });
      links.push({ ...links[0], id: 'one-look', from: 'one', to: 'look' });
      links.push({ ...links[0], id: 'look-two', from: 'look', to: 'two' });
    });
    const table = ({ fn }: (typeof problem.lags)[number]): string =>
      fn.kind === 'table' ? problem.tables[fn.table].id : '';
    const bond = problem.lags.filter(({ source }) => source === 'link:lid.bond');
    expect(bond.map(table)).toEqual([
      'resin/bond-opens/open/cold+shop',
      'resin/bond-closes/close/cold+shop',
    ]);
    // Not known to come after the look, the abrading may.
    const hard = problem.lags.filter(({ source }) => source === 'link:lid.hard');
    expect(hard.map(table)).toEqual(['resin/sandable/open/cold+far+shop']);
  });

  it('keeps wet work that spoils away from the cold before its film is set', () => {
    const { problem } = compiled((yard) => {
      yard.materials[0].belowMinimum = 'spoils';
      yard.materials[0].minimumC = 15;
      const setPoints = [
        { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '06:00', celsius: 20 },
        { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '18:00', celsius: 12 },
      ];
      yard.spaces[0].climate = { kind: 'heated', setPoints };
    });
    // Tack-free after 300 min at 20 degrees: the 60-minute coat has to be over by 13:00, so begun by 12:00 (minute 240).
    expect(problem.activities[1].modes[0].forbiddenStarts[0]).toEqual({ start: 241, end: 22 * 60 });
  });

  it('is the same each time', () => {
    expect(problemHash(compiled().problem)).toBe(problemHash(compiled().problem));
    expect(problemHash(compiled().problem)).not.toBe(
      problemHash(compiled((yard) => (yard.boats[0].refits[0].weight = 2)).problem),
    );
  });
});

describe('compile with work that has begun', () => {
  const laid = {
    state: 'done',
    startedAt: '2026-11-02T05:00:00Z',
    finishedAt: '2026-11-02T06:00:00Z',
    crew: ['ada'],
  } as const;
  const sanded = {
    state: 'done',
    startedAt: '2026-11-01T10:00:00Z',
    finishedAt: '2026-11-01T11:00:00Z',
    crew: ['ada'],
  } as const;

  it('counts a film laid before the beginning from when it was laid', () => {
    const { problem } = compiled(() => undefined, { 'lid.sand': sanded, 'lid.one': laid });
    expect(problem.activities[1].fixed).toMatchObject({ kind: 'frozen', start: 0, finish: 0 });
    const bond = problem.lags.filter(({ source }) => source === 'link:lid.bond');
    // Laid 05:00 to 06:00: bonds from 08:00 (minute 0) to 11:00 (minute 180); sandable after 16 h, 22:00.
    expect(bond.map(({ fn }) => fn)).toEqual([
      { kind: 'constant', minutes: 0 },
      { kind: 'constant', minutes: 180 },
    ]);
    const hard = problem.lags.find(({ source }) => source === 'link:lid.hard');
    expect(hard?.fn).toEqual({ kind: 'constant', minutes: 840 });
    // Dust-safe four hours after 06:00.
    expect(problem.surfaces[0]).toMatchObject({
      activity: 1,
      until: { kind: 'constant', minutes: 120 },
    });
  });

  it('leaves out the branch that what has begun rules out', () => {
    const working = {
      ...laid,
      state: 'working',
      startedAt: '2026-11-02T08:00:00Z',
      finishedAt: '2026-11-02T09:00:00Z',
    } as const;
    const { problem, map } = compiled(() => undefined, {
      'lid.sand': sanded,
      'lid.one': laid,
      'lid.two': working,
    });
    expect(map.dropped).toEqual(['lid.key']);
    expect(map.decided).toEqual([{ id: 'lid.next', branch: 'bond' }]);
    expect(problem.choices).toEqual([]);
    expect(problem.activities.map(({ id }) => id)).toEqual(['lid.sand', 'lid.one', 'lid.two']);
    expect(problem.activities[2].fixed).toEqual({
      kind: 'frozen',
      start: 0,
      finish: 60,
      builders: [0],
    });
  });

  it('expects work that goes on to take what it has left, in its crew’s working time', () => {
    const yard = smallYard((draft) => (draft.boats[0].refits[0].parts[0].areaM2 = 12));
    const made = makeWorkload(yard);
    const tasks = made.tasks.map((task): Task =>
      task.id === 'lid.sand'
        ? { ...task, state: 'working', startedAt: '2026-11-02T15:00:00Z', crew: ['ada'] }
        : task,
    );
    const workload = { ...made, tasks };
    // 250 minutes: 60 on Monday until 16:00, 190 on Tuesday from 08:00.
    for (const [from, start, finish] of [
      ['2026-11-02T08:00:00Z', 420, 1440 + 190],
      ['2026-11-03T08:00:00Z', 0, 190],
    ] as const) {
      const { problem } = compile({ yard, workload, from, now: '2026-11-03T08:00:00Z' });
      expect(problem.activities[0].fixed).toEqual({ kind: 'frozen', start, finish, builders: [0] });
    }
  });

  it('excuses what has happened from the rules among itself', () => {
    const { problem } = compiled(() => undefined, {
      'lid.one': laid,
      'lid.sand': { state: 'working', startedAt: '2026-11-02T08:00:00Z', crew: ['ada'] },
    });
    expect(problem.activities[0].modes[0].air).toBe('clean');
  });

  it('keeps what waits after now, and to the crew that the foreman set', () => {
    const yard = smallYard();
    const made = makeWorkload(yard);
    const tasks = made.tasks.map((task) =>
      task.id === 'lid.one' ? { ...task, crew: ['ada'] } : task,
    );
    const { problem } = compile({
      yard,
      workload: { ...made, tasks },
      now: '2026-11-02T10:00:30Z',
    });
    expect(problem.activities.map(({ release }) => release)).toEqual([120, 120, 120, 120]);
    expect(problem.activities[1].fixed).toEqual({
      kind: 'set',
      start: null,
      finish: null,
      builders: [0],
    });
  });
});

describe('compile refuses', () => {
  it.each<[string, (draft: Yard) => void, Partial<Fault>]>([
    [
      'a skill that nobody has',
      (yard) => yard.people[0].abilities.pop(),
      {
        code: 'yard.skill',
        path: 'procedures[0].steps[0]',
        value: 'sanding',
        message: '"Sand" on Lid (lid.sand) needs Sanding, which no builder has',
      },
    ],
    [
      'a level that nobody has',
      (yard) => (yard.procedures[0].steps[0].minLevel = 3),
      {
        code: 'yard.skill',
        message: '"Sand" on Lid (lid.sand) needs Sanding at level 3 or above, which no builder has',
      },
    ],
    [
      'a crew larger than those who can',
      (yard) => Object.assign(yard.procedures[0].steps[0], { crewMin: 2, crewMax: 3 }),
      {
        code: 'yard.crew',
        value: 2,
        message: '"Sand" on Lid (lid.sand) needs 2 builders; 1 has Sanding',
      },
    ],
    [
      'a task longer than any shift',
      (yard) => (yard.boats[0].refits[0].parts[0].areaM2 = 40),
      {
        code: 'yard.shift',
        path: 'boats[0].refits[0].parts[0].jobs[0]',
        value: 'lid.one',
        message:
          '"Coat one" on Lid (lid.one) takes 10 h 30 min in one piece even with one builder; the longest shift of anyone with Coating is 8 h',
      },
    ],
    [
      'a crew that is never there together',
      (yard) => {
        const shifts = [{ weekday: 6, from: '08:00', to: '16:00', breaks: [] }];
        yard.people.push({ ...yard.people[0], id: 'bo', name: 'Bo', shifts });
        Object.assign(yard.procedures[0].steps[1], { crewMin: 2, crewMax: 2 });
      },
      {
        code: 'yard.crew',
        message:
          '"Coat one" on Lid (lid.one) takes 30 min in one piece with 2 builders, but so many with Coating are never at work together for so long',
      },
    ],
    [
      'a window that never opens in the cold',
      (yard) => {
        onlyBond(yard);
        heat(yard, 2);
      },
      {
        code: 'yard.window',
        path: 'procedures[0].links[1]',
        value: 'lid.bond',
        message:
          'the window of lid.bond never opens: "Coat one" on Lid (lid.one) is not "bond-opens" before the horizon in Shop, at 2 °C',
      },
    ],
    [
      'a window too short for the work in it',
      (yard) => {
        onlyBond(yard);
        yard.boats[0].refits[0].parts[0].areaM2 = 12;
      },
      {
        code: 'yard.window',
        message:
          'the window of lid.bond is empty: "Coat two" on Lid (lid.two) takes at least 210 min, and there is never so long between "bond-opens" and "bond-closes" of "Coat one" on Lid (lid.one) in Shop, at 20 °C',
      },
    ],
    [
      'a choice whose every branch is closed',
      (yard) => heat(yard, 2),
      { code: 'yard.window', value: 'lid.hard' },
    ],
    [
      'a space where the material spoils all the time',
      (yard) => {
        yard.materials[0].belowMinimum = 'spoils';
        yard.materials[0].minimumC = 25;
      },
      {
        code: 'yard.window',
        message:
          '"Coat one" on Lid (lid.one) can never start: Resin must be laid and set between 25 °C and 35 °C, and it is in Shop, at 20 °C',
      },
    ],
    [
      'a boat that comes after the horizon',
      (yard) =>
        Object.assign(yard.boats[0].refits[0], { release: '2027-11-02T08:00:00Z', promised: null }),
      {
        code: 'yard.horizon',
        path: 'boats[0].refits[0].release',
        value: '2027-11-02T08:00:00Z',
        message:
          'Gull refit is only released on 2027-11-02T08:00:00Z, and the plan ends 14 days after 2026-11-02T08:00:00Z',
      },
    ],
    [
      'an empty yard',
      (yard) => (yard.boats = []),
      { code: 'yard.empty', path: 'boats', message: 'there is no boat' },
    ],
  ])('%s', (_, change, expected) => {
    expect(faultsOf(change)).toContainEqual(expect.objectContaining(expected));
  });

  it('not a window that another branch avoids', () => {
    // Too large for the bond window, but it can be abraded.
    const { problem } = compiled((yard) => (yard.boats[0].refits[0].parts[0].areaM2 = 12));
    expect(problem.choices[0].branches).toHaveLength(2);
  });
});
