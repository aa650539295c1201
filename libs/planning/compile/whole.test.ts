import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { check } from '#scheduling/checker/check.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { solve } from '#scheduling/solve.ts';
import { compiled } from '../testing/compiled.ts';
import type { Task } from '../workload/workload.ts';
import { partSchema } from '../yard/boats.ts';
import type { Step } from '../yard/procedures.ts';
import type { Yard } from '../yard/yard.ts';
import { rowOf } from './trace/map.ts';

const steps = (yard: Yard): Step[] => yard.procedures[0].steps;
const refit = (yard: Yard) => yard.boats[0].refits[0];
const mode = (problem: Problem, id: string) =>
  problem.activities[problem.activities.findIndex((one) => one.id === id)].modes[0];

const done = (from: string, to: string): Partial<Task> => ({
  state: 'done',
  startedAt: from,
  finishedAt: to,
  crew: ['ada'],
});

describe('compile', () => {
  it('counts money in sixtieths of a cent, so that hourly cents are whole by the minute', () => {
    const { problem } = compiled((yard) => {
      Object.assign(yard.people[0], { hourlyCost: 3001, overtimeHourlyExtra: 999 });
      yard.people[0].overtime = [{ weekday: 1, from: '15:00', to: '18:00' }];
      steps(yard)[1].price = 250;
      yard.moneyTolerance = 70;
    });
    expect(problem.builders[0].cost).toBe(3001);
    // From the end of the shift on: what lies in it is no overtime.
    expect(problem.calendars[0].overtime[0]).toEqual({ start: 480, end: 600, cost: 999 });
    expect(mode(problem, 'lid.one').cost).toBe(250 * 60);
    expect(problem.tolerances).toEqual([0, 240, 70 * 60]);
  });

  it('gives nobody overtime on a date with an exception', () => {
    const { problem } = compiled((yard) => {
      yard.people[0].overtime = [{ weekday: 2, from: '16:00', to: '18:00' }];
      yard.people[0].exceptions = [{ date: '2026-11-03', shifts: [], reason: 'away' }];
    });
    expect(problem.calendars[0].overtime.map(({ start }) => start)).toEqual([8 * 1440 + 480]);
  });

  it('makes a learner need a senior', () => {
    const { problem } = compiled((yard) => {
      const abilities = yard.people[0].abilities.map((one) => ({ ...one, level: 1 }));
      yard.people.push({ ...yard.people[0], id: 'bo', name: 'Bo', abilities });
    });
    expect(problem.builders.map(({ abilities }) => abilities[0].needsSenior)).toEqual([
      false,
      true,
    ]);
  });

  it('has capacities by time, hours as calendars, and stocks in thousandths', () => {
    const { problem } = compiled((yard) => {
      yard.tools[0].count = 2;
      yard.tools[0].away = [
        { from: '2026-11-02T10:00:00Z', to: '2026-11-02T12:00:00Z', count: 1 },
        { from: '2026-11-02T11:00:00Z', to: '2026-11-02T13:00:00Z', count: 5 },
      ];
      yard.spaces[0].hours = [{ weekday: 1, from: '09:00', to: '12:00' }];
      yard.stocks = [{ id: 'resin', name: 'Resin', unit: 'kg', total: 2.5 }];
      const more = { fixed: 0.1, perM2: 0.25, perEdgeM: 0, perJointM: 0 };
      steps(yard)[1].consumes = [{ stock: 'resin', ...more }];
    });
    expect(problem.resources[1].steps).toEqual([
      { from: 0, capacity: 2 },
      { from: 120, capacity: 1 },
      { from: 180, capacity: 0 },
      { from: 300, capacity: 2 },
    ]);
    const hours = problem.calendars[problem.resources[0].calendar ?? -1];
    expect(hours.shifts[0]).toEqual({ start: 60, end: 240 });
    expect(problem.stocks[0].total).toBe(2500);
    expect(mode(problem, 'lid.one').consumes).toEqual([{ stock: 0, amount: 600 }]); // 0.1 + 0.25 * 2 m2
  });

  it('holds a tool until the film’s milestone, or until another task', () => {
    const { problem } = compiled((yard) => {
      steps(yard)[1].holds = [
        {
          id: 'clamp',
          tool: 'sander',
          count: 1,
          until: [
            { kind: 'milestone', milestone: 'sandable' },
            { kind: 'step', step: 'two', anchor: 'finish' },
          ],
        },
      ];
    });
    const [hold] = problem.holds;
    expect(hold).toMatchObject({
      activity: 1,
      resource: 1,
      amount: 1,
      source: 'hold:lid.one/clamp',
    });
    expect(hold.ends[1]).toEqual({ kind: 'activity', activity: 3, anchor: 'finish' });
    const [end] = hold.ends;
    const fn = end.kind === 'lag' ? end.fns[0] : null;
    expect(fn?.kind === 'table' ? problem.tables[fn.table].values[0] : null).toBe(960);
  });

  it('uses slots once booked or in time, and tells bookings from prices', () => {
    const { problem, map } = compiled((yard) => {
      const slot = { price: 500, noticeHours: 24, booked: false };
      yard.slotLists = [
        {
          id: 'crane',
          name: 'Crane',
          kind: 'crane',
          slots: [
            { ...slot, from: '2026-11-05T08:00:00Z', to: '2026-11-05T12:00:00Z' },
            { ...slot, from: '2026-11-04T08:00:00Z', to: '2026-11-04T12:00:00Z', booked: true },
            { ...slot, from: '2026-10-04T08:00:00Z', to: '2026-10-04T12:00:00Z' },
          ],
        },
      ];
      steps(yard)[0].slots = 'crane';
    });
    expect(problem.slotLists[0].slots).toEqual([
      { start: 2880, end: 3120, cost: 0, bookBy: problem.horizon },
      { start: 4320, end: 4560, cost: 30_000, bookBy: 2880 },
    ]);
    expect(map.slotLists).toEqual([{ id: 'crane', slots: [1, 0] }]);
  });

  it('waits for the boat, deliveries and words, each a release of its own', () => {
    const { problem, map } = compiled((yard) => {
      refit(yard).release = '2026-11-02T09:00:00Z';
      yard.deliveries = [{ id: 'paint', name: 'Paint', expected: '2026-11-03T08:00:00Z' }];
      const [job] = refit(yard).parts[0].jobs;
      job.waitsFor = [
        { delivery: 'paint', step: null },
        { delivery: 'paint', step: 'two' },
      ];
    });
    const kinds = problem.activities.map(({ releases }) => releases.map(({ kind }) => kind));
    expect(kinds).toEqual([['boat', 'delivery'], ['boat'], ['boat'], ['boat', 'delivery']]);
    const row = rowOf(map, problem, { kind: 'release', activity: 3, release: 1 });
    expect(row).toEqual({ kind: 'delivery', id: 'paint', name: 'Paint', path: 'deliveries[0]' });
  });

  it('takes a wiped surface from dust until it is coated', () => {
    const { problem } = compiled((yard) => {
      Object.assign(steps(yard)[2], {
        air: 'clean',
        sensitiveUntil: { kind: 'after', minutes: 240 },
        coveredBy: ['two'],
      });
    });
    expect(problem.surfaces.map(({ activity, coveredBy }) => [activity, coveredBy])).toEqual([
      [1, []],
      [2, [3]],
      [3, []],
    ]);
    expect(problem.surfaces[1].until).toEqual([{ kind: 'constant', minutes: 240 }]);
  });

  it('passes dust through a barrier, and begins with it as work that is done has left it', () => {
    const door = (yard: Yard): void => {
      const blocks = [{ from: 'shop', to: 'shop' }];
      yard.barriers = [{ id: 'door', name: 'Door', closed: false, blocks }];
      steps(yard)[0].barrier = { barrier: 'door', closes: true };
    };
    const before = compiled(door).problem;
    expect(before.spaces[0].dustReaches).toEqual([{ space: 0, barrier: 0 }]);
    expect(before.barriers[0].closed).toBe(false);
    expect(mode(before, 'lid.sand').barrier).toEqual({ barrier: 0, closes: true });
    const sanded = done('2026-11-01T08:00:00Z', '2026-11-01T09:00:00Z');
    const after = compiled(door, { tasks: { 'lid.sand': sanded } }).problem;
    expect(after.barriers[0].closed).toBe(true);
    expect(mode(after, 'lid.sand').barrier).toBeNull();
  });

  it('begins with a part where work that is done has taken it', () => {
    const carried = (yard: Yard): void => {
      yard.spaces.push({ ...yard.spaces[0], id: 'loft', name: 'Loft' });
      steps(yard)[0].move = { kind: 'destination' };
      refit(yard).parts[0].jobs[0].destination = 'loft';
    };
    const before = compiled(carried).problem;
    expect([before.parts[0].space, mode(before, 'lid.sand').movesTo]).toEqual([0, 1]);
    expect(mode(before, 'lid.one').space).toBe(1);
    const sanded = done('2026-11-02T08:00:00Z', '2026-11-02T09:00:00Z');
    const after = compiled(carried, { tasks: { 'lid.sand': sanded }, now: '2026-11-02T09:30:00Z' });
    expect([after.problem.parts[0].space, mode(after.problem, 'lid.sand').movesTo]).toEqual([
      1,
      null,
    ]);
    const { plan } = solve(after.problem, { seed: 1, iterations: 50 });
    expect(plan === null ? 'no plan' : check(after.problem, plan)).toEqual([]);
  });

  it('excuses two crews on one part and a tool that is held twice, where both have happened', () => {
    const twice = (yard: Yard): void => {
      const until = [{ kind: 'after' as const, minutes: 300 }];
      for (const step of steps(yard).slice(0, 2))
        step.holds = [{ id: 'stand', tool: 'sander', count: 1, until }];
    };
    const working = { state: 'working', startedAt: '2026-11-02T08:00:00Z', crew: ['ada'] } as const;
    const { problem } = compiled(twice, {
      tasks: { 'lid.sand': working, 'lid.one': working },
      now: '2026-11-02T08:10:00Z',
    });
    expect(problem.holds.map(({ activity }) => activity)).toEqual([0]);
    expect(problem.activities.slice(0, 2).map(({ parts }) => parts)).toEqual([[0], []]);
    const { plan } = solve(problem, { seed: 1, iterations: 50 });
    expect(plan === null ? 'no plan' : check(problem, plan)).toEqual([]);
  });

  it('keeps to the published plan, most in the next two days', () => {
    const { problem } = compiled(() => undefined, {
      published: {
        toleranceMinutes: 30,
        tasks: [
          { task: 'lid.sand', start: '2026-11-03T08:00:00Z', people: ['ada'] },
          { task: 'lid.two', start: '2026-11-09T08:00:00Z', people: ['ada', 'gone'] },
          { task: 'lid.gone', start: '2026-11-09T08:00:00Z', people: [] },
        ],
      },
    });
    expect(problem.published).toEqual({
      tolerance: 30,
      tasks: [
        { activity: 0, start: 1440, builders: [0], weight: 5 },
        { activity: 3, start: 7 * 1440, builders: [0], weight: 1 },
      ],
    });
    const { plan } = solve(problem, { seed: 1, iterations: 100 });
    expect(plan?.values[3]).toBeGreaterThan(0); // sanding a day early moves it: finishing first is worth more
  });

  it('refuses work on a part in a space that nothing has taken it to', () => {
    const away = (yard: Yard): void => {
      yard.spaces.push({ ...yard.spaces[0], id: 'loft', name: 'Loft' });
      steps(yard)[1].space = 'loft';
    };
    expect(() => compiled(away)).toThrow(
      '"Coat one" on Lid (lid.one) is to be done in Loft, but the part is then in Shop',
    );
    // What is not on the part may be anywhere.
    const off = compiled((yard) => {
      away(yard);
      steps(yard)[1].onPart = false;
    });
    expect(mode(off.problem, 'lid.one').space).toBe(1);
  });

  it('refuses a word or a delivery that comes after the plan', () => {
    const late = (yard: Yard): void => {
      yard.deliveries = [{ id: 'paint', name: 'Paint', expected: '2026-12-03T08:00:00Z' }];
      refit(yard).parts[0].jobs[0].waitsFor = [{ delivery: 'paint', step: null }];
    };
    expect(() => compiled(late)).toThrow(DomainError);
    expect(() => compiled(late)).toThrow(/Paint is expected on 2026-12-03T08:00:00Z/);
  });

  it('joins the hull to what is bonded to it', () => {
    const { problem } = compiled((yard) => {
      const frame = { id: 'frame', name: 'Frame', space: 'shop', areaM2: 1 };
      refit(yard).parts.push(partSchema.parse(frame));
      refit(yard).parts[0].jobs[0].joins = ['frame'];
      steps(yard)[3].joins = true;
      steps(yard)[2].onPart = false;
    });
    expect(problem.activities.map(({ parts }) => parts)).toEqual([[0], [0], [], [0, 1]]);
  });
});
