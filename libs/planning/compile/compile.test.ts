import { describe, expect, it } from 'vitest';
import { lagAt } from '#scheduling/model/lag.ts';
import { compiled } from '../testing/compiled.ts';
import { heatedTo, jobOf, smallYard } from '../testing/small-yard.ts';
import { makeWorkload } from '../workload/make.ts';
import type { Task } from '../workload/workload.ts';
import type { Yard } from '../yard/yard.ts';
import { compile, type Compiled } from './compile.ts';
import { problemHash } from './trace/hash.ts';

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
    // 20 degrees always: bonds from 120 to 360 minutes on, whenever it was laid.
    const laid = [0, 5, 10, 4321, problem.horizon];
    expect(bond.map((lag) => laid.map((minute) => lagAt(problem, lag, 0, minute)))).toEqual([
      [120, 125, 130, 4441, problem.horizon + 1],
      [360, 365, 370, 4681, problem.horizon + 1],
    ]);
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
        jobs: [jobOf('hatch')],
      });
      yard.people.push({ ...yard.people[0], id: 'bo', name: 'Bo' });
      yard.procedures[0].steps[0].crewMax = 5;
    });
    expect(more.problem.tables.map(({ id }) => id)).toEqual(one.problem.tables.map(({ id }) => id));
    expect(more.problem.activities[0].modes.map(({ crew }) => crew[0].count)).toEqual([1, 2]);
  });

  /** A cold space, and a step that carries the part there, with links around it. */
  const carried =
    (links: readonly (readonly [from: string, to: string])[]) =>
    (yard: Yard): void => {
      yard.spaces.push({
        ...yard.spaces[0],
        id: 'cold',
        name: 'Cold',
        climate: heatedTo(10),
      });
      const [procedure] = yard.procedures;
      const [sand] = procedure.steps;
      procedure.steps.push({
        ...sand,
        id: 'carry',
        name: 'Carry',
        air: 'clean',
        move: { kind: 'space', space: 'cold' },
      });
      for (const [from, to] of links)
        procedure.links.push({ ...procedure.links[0], id: `${from}-${to}`, from, to });
    };
  const tablesOf = ({ problem }: Compiled, link: string): string[] =>
    problem.lags
      .filter(({ source }) => source === `link:${link}`)
      .flatMap(({ fns: [fn] }) => (fn.kind === 'table' ? problem.tables[fn.table].id : []));

  it('uses the colder and the warmer of two places a part may be in', () => {
    const one = compiled(
      carried([
        ['one', 'carry'],
        ['carry', 'two'],
      ]),
    );
    const { problem } = one;
    const values = problem.lags
      .filter(({ source }) => source === 'link:lid.bond')
      .map(({ fns: [fn] }) => (fn.kind === 'table' ? problem.tables[fn.table].values[0] : -1));
    expect(values).toEqual([240, 360]); // opens as at 10 degrees, closes as at 20
    expect(tablesOf(one, 'lid.bond')).toEqual([
      'resin/bond-opens/open/cold+shop',
      'resin/bond-closes/close/cold+shop',
    ]);
    // Not known to come after the carrying, the abrading is done before it, but waits as if not.
    expect(tablesOf(one, 'lid.hard')).toEqual(['resin/sandable/open/cold+shop']);
    const space = problem.spaces.findIndex(({ id }) => id === 'cold');
    expect(problem.activities.map(({ modes }) => modes[0].space === space)).toEqual([
      false,
      false,
      false,
      true,
      false,
    ]);
    expect(problem.activities[4].modes[0]).toMatchObject({ space: 0, movesTo: space });
  });

  it('knows a move that comes before the laying, after the later task, or too late to matter', () => {
    const early = compiled(carried([['carry', 'one']]));
    expect(tablesOf(early, 'lid.bond')[0]).toBe('resin/bond-opens/open/cold');
    const late = compiled(carried([['two', 'carry']]));
    expect(tablesOf(late, 'lid.bond')[0]).toBe('resin/bond-opens/open/shop');
    // Carried when it is sandable, which is never before it is dust-safe or tack-free.
    const hard = compiled((yard) => {
      carried([])(yard);
      const [procedure] = yard.procedures;
      procedure.links.push({ ...procedure.links[2], id: 'one-carry', to: 'carry' });
    });
    const until = hard.problem.surfaces[0].until[0];
    expect(until.kind === 'table' ? hard.problem.tables[until.table].id : '').toBe(
      'resin/dust-safe/open/shop',
    );
    expect(tablesOf(hard, 'lid.one-carry')).toEqual(['resin/sandable/open/shop']);
    expect(tablesOf(hard, 'lid.bond')).toEqual([
      'resin/bond-opens/open/shop',
      'resin/bond-closes/close/cold+shop',
    ]);
  });

  it('has a window close on a move as if that were under way', () => {
    const made = compiled((yard) => {
      carried([])(yard);
      const [procedure] = yard.procedures;
      const closes = { kind: 'milestone' as const, milestone: 'bond-closes' as const };
      const [link] = procedure.links;
      procedure.links.push({ ...link, id: 'off', from: 'one', to: 'carry', opens: null, closes });
    });
    expect(tablesOf(made, 'lid.off')).toEqual(['resin/bond-closes/close/cold+shop']);
  });

  it('keeps wet work that spoils away from the cold before its film is set', () => {
    const { problem } = compiled((yard) => {
      yard.materials[0].belowMinimum = 'spoils';
      yard.materials[0].minimumC = 15;
      const setPoints = [
        { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '06:00', celsius: 20 },
        { weekdays: [1, 2, 3, 4, 5, 6, 7], from: '18:00', celsius: 12 },
      ];
      yard.spaces[0].climate = { kind: 'heated', setPoints, lagHours: 0 };
    });
    // Tack-free after 300 min at 20 degrees: the 60-minute coat has to be over by 13:00, so begun by 12:00 (minute 240).
    expect(problem.activities[1].modes[0].forbidden[0]).toMatchObject({
      anchor: 'start',
      kind: 'cold',
      source: 'material:resin',
    });
    // Ten minutes about a set-point count as the colder of both.
    const [{ start, end }] = problem.activities[1].modes[0].forbidden[0].spans;
    expect(start).toBeLessThanOrEqual(241);
    expect(start).toBeGreaterThan(231);
    expect(end).toBeGreaterThanOrEqual(22 * 60);
    expect(end).toBeLessThan(22 * 60 + 10);
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
    const { problem } = compiled(() => undefined, {
      tasks: { 'lid.sand': sanded, 'lid.one': laid },
    });
    expect(problem.activities[1].fixed).toMatchObject({ kind: 'frozen', start: 0, finish: 0 });
    const bond = problem.lags.filter(({ source }) => source === 'link:lid.bond');
    // Laid 05:00 to 06:00: bonds from 08:00 (minute 0) to 11:00 (minute 180); sandable after 16 h, 22:00.
    expect(bond.flatMap(({ fns }) => fns)).toEqual([
      { kind: 'constant', minutes: 0 },
      { kind: 'constant', minutes: 180 },
    ]);
    const hard = problem.lags.find(({ source }) => source === 'link:lid.hard');
    expect(hard?.fns).toEqual([{ kind: 'constant', minutes: 840 }]);
    // Dust-safe four hours after 06:00.
    expect(problem.surfaces[0]).toMatchObject({
      activity: 1,
      until: [{ kind: 'constant', minutes: 120 }],
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
      tasks: {
        'lid.sand': sanded,
        'lid.one': laid,
        'lid.two': working,
      },
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
      tasks: {
        'lid.one': laid,
        'lid.sand': { state: 'working', startedAt: '2026-11-02T08:00:00Z', crew: ['ada'] },
      },
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
    expect(problem.now).toBe(120);
    for (const { releases } of problem.activities)
      expect(releases).toEqual([{ at: 120, kind: 'now', source: 'now' }]);
    expect(problem.activities[1].fixed).toEqual({
      kind: 'set',
      start: null,
      finish: null,
      builders: [0],
    });
  });
});
