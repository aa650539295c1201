import { describe, expect, it } from 'vitest';
import { smallYard } from '../../testing/small-yard.ts';
import { makeWorkload } from '../../workload/make.ts';
import type { Task } from '../../workload/workload.ts';
import type { Step } from '../../yard/procedures.ts';
import type { Yard } from '../../yard/yard.ts';
import { standing } from './standing.ts';

const steps = (yard: Yard): Step[] => yard.procedures[0].steps;

const done = (from: string, to: string): Partial<Task> => ({
  state: 'done',
  startedAt: `2026-11-02T${from}:00Z`,
  finishedAt: `2026-11-02T${to}:00Z`,
  crew: ['ada'],
});
const working = (from: string): Partial<Task> => ({
  state: 'working',
  startedAt: `2026-11-02T${from}:00Z`,
  crew: ['ada'],
});

/** Why a task may not begin at a time on Monday; `ready` if it may. */
function why(
  task: string,
  time: string,
  change: (draft: Yard) => void,
  begun: Readonly<Record<string, Partial<Task>>> = {},
): string {
  const yard = smallYard(change);
  const made = makeWorkload(yard);
  const workload = { ...made, tasks: made.tasks.map((one) => ({ ...one, ...begun[one.id] })) };
  const now = `2026-11-02T${time}:00Z`;
  const stand = standing({ yard, workload, sheet: null, now });
  if (stand.task(task) === null) return 'not there';
  return stand.whyNot(task)?.why ?? 'ready';
}

/** A second part with a job of its own. */
function hatch(yard: Yard): void {
  const { parts } = yard.boats[0].refits[0];
  const [lid] = parts;
  parts.push({ ...lid, id: 'hatch', name: 'Hatch', jobs: [{ ...lid.jobs[0], id: 'hatch' }] });
}

describe('the standing says what a task waits for', () => {
  it('a delivery, until it is expected', () => {
    const ordered = (yard: Yard): void => {
      yard.deliveries = [{ id: 'paper', name: 'Paper', expected: '2026-11-02T09:00:00Z' }];
      yard.boats[0].refits[0].parts[0].jobs[0].waitsFor = [{ delivery: 'paper', step: null }];
    };
    expect(why('lid.sand', '08:30', ordered)).toBe('Paper is expected Mon 2 Nov 09:00');
    expect(why('lid.sand', '09:00', ordered)).toBe('ready');
  });

  it('a word, and what is to be seen', () => {
    const asked = (yard: Yard): void => {
      steps(yard).push({
        ...steps(yard)[0],
        id: 'look',
        name: 'Owner looks',
        skill: null,
        crewMin: 0,
        crewMax: 0,
        air: 'clean',
        splittable: false,
      });
      yard.procedures[0].links.push({ ...yard.procedures[0].links[0], id: 'l', to: 'look' });
      yard.boats[0].refits[0].parts[0].jobs[0].words = [
        { step: 'look', expected: '2026-11-02T10:00:00Z' },
      ];
    };
    const sanded = { 'lid.sand': done('08:00', '08:50') };
    expect(why('lid.look', '09:00', asked, sanded)).toBe('the word is expected Mon 2 Nov 10:00');
    expect(why('lid.look', '10:00', asked)).toBe('Sand (Lid) is not done');
    expect(why('lid.look', '10:00', asked, sanded)).toBe('ready');
  });

  it('a tool that is away, in use, or still under a part', () => {
    const needed = (yard: Yard): void => {
      hatch(yard);
      steps(yard)[0].tools = [{ tool: 'sander', count: 1 }];
    };
    const lent = (yard: Yard): void => {
      needed(yard);
      yard.tools[0].away = [{ from: '2026-11-02T07:00:00Z', to: '2026-11-02T09:00:00Z', count: 1 }];
    };
    expect(why('lid.sand', '08:30', lent)).toBe('there is no Sander free: it is away');
    expect(why('lid.sand', '09:00', lent)).toBe('ready');
    expect(why('lid.sand', '08:30', needed, { 'hatch.sand': working('08:00') })).toBe(
      'there is no Sander free: taken by Sand (Hatch)',
    );
    const held = (yard: Yard): void => {
      hatch(yard);
      const until = [{ kind: 'after' as const, minutes: 60 }];
      steps(yard)[0].holds = [{ id: 'h', tool: 'sander', count: 1, until }];
    };
    const over = { 'hatch.sand': done('08:00', '08:30') };
    expect(why('lid.sand', '09:00', held, over)).toBe(
      'there is no Sander free: taken by Sand (Hatch)',
    );
    expect(why('lid.sand', '09:30', held, over)).toBe('ready');
  });

  it('a part that others are on', () => {
    const more = (yard: Yard): void => {
      steps(yard).push({ ...steps(yard)[0], id: 'drill', name: 'Drill' });
    };
    expect(why('lid.drill', '08:30', more, { 'lid.sand': working('08:00') })).toBe(
      'Sand (Lid) is on Lid',
    );
  });

  it('a part that was put aside, of which nobody is at work', () => {
    const more = (yard: Yard): void => {
      steps(yard).push({ ...steps(yard)[0], id: 'drill', name: 'Drill' });
    };
    const paused = { 'lid.sand': { ...working('08:00'), state: 'paused' as const } };
    expect(why('lid.drill', '08:30', more, paused)).toBe('ready');
    expect(why('lid.sand', '08:30', more, paused)).toBe('ready');
    expect(why('lid.one', '08:30', more, paused)).toBe('Sand (Lid) is paused');
  });

  it('room for its crew, and hours at which the space may be used', () => {
    const small = (yard: Yard): void => {
      hatch(yard);
      yard.spaces[0].room = 1;
    };
    expect(why('lid.sand', '08:30', small, { 'hatch.sand': working('08:00') })).toBe(
      'there is no room for 1 in Shop: taken by Sand (Hatch)',
    );
    const visited = (yard: Yard): void => {
      yard.spaces[0].taken = [
        { from: '2026-11-02T08:00:00Z', to: '2026-11-02T09:00:00Z', count: 2 },
      ];
    };
    expect(why('lid.sand', '08:59', visited)).toBe('there is no room for 1 in Shop: it is taken');
    expect(why('lid.sand', '09:00', visited)).toBe('ready');
    const quiet = (yard: Yard): void => {
      yard.spaces[0].hours = [{ weekday: 1, from: '09:00', to: '12:00' }];
    };
    expect(why('lid.sand', '08:30', quiet)).toBe('Shop is shut until Mon 2 Nov 09:00');
    expect(why('lid.sand', '09:00', quiet)).toBe('ready');
    expect(why('lid.sand', '12:00', quiet)).toBe('Shop is shut until Mon 9 Nov 09:00');
  });

  it('stock of which enough is left', () => {
    const scarce = (yard: Yard): void => {
      hatch(yard);
      yard.stocks = [{ id: 'paper', name: 'Paper', unit: 'sheets', total: 3 }];
      steps(yard)[0].consumes = [{ stock: 'paper', fixed: 2, perM2: 0, perEdgeM: 0, perJointM: 0 }];
    };
    expect(why('lid.sand', '08:30', scarce)).toBe('ready');
    expect(why('lid.sand', '09:30', scarce, { 'hatch.sand': done('08:00', '08:50') })).toBe(
      '1 sheets of Paper are left, and it takes 2',
    );
  });

  it('nothing any more of what is done again', () => {
    const begun = { 'lid.sand': { ...done('08:00', '08:50'), state: 'redo' as const } };
    expect(why('lid.sand', '09:00', () => undefined, begun)).toBe('not there');
  });

  it('a slot that is long enough', () => {
    const lifted = (yard: Yard): void => {
      const slot = { price: 0, noticeHours: 0, booked: true };
      yard.slotLists = [
        {
          id: 'crane',
          name: 'Crane',
          kind: 'crane',
          slots: [{ ...slot, from: '2026-11-02T09:00:00Z', to: '2026-11-02T10:00:00Z' }],
        },
      ];
      steps(yard)[0].slots = 'crane';
    };
    expect(why('lid.sand', '08:30', lifted)).toBe('the next slot of Crane is Mon 2 Nov 09:00');
    expect(why('lid.sand', '09:10', lifted)).toBe('ready'); // 50 minutes to 10:00
    expect(why('lid.sand', '09:11', lifted)).toBe('no slot of Crane is left');
  });

  it('dust, unless a door is closed to it, and a film until it is covered', () => {
    const twoSpaces = (yard: Yard): void => {
      hatch(yard);
      yard.spaces[0].dustReaches = ['shop', 'loft'];
      yard.spaces.push({ ...yard.spaces[0], id: 'loft', name: 'Loft', dustReaches: [] });
      yard.boats[0].refits[0].parts[1].space = 'loft';
    };
    const shut = (yard: Yard): void => {
      twoSpaces(yard);
      const blocks = [{ from: 'shop', to: 'loft' }];
      yard.barriers = [{ id: 'door', name: 'Door', closed: true, blocks }];
    };
    const begun = { 'hatch.sand': done('07:00', '07:50'), 'hatch.one': done('08:00', '09:00') };
    expect(why('lid.sand', '09:30', twoSpaces, begun)).toBe(
      'its dust would reach what Coat one (Hatch) left open',
    );
    expect(why('lid.sand', '09:30', shut, begun)).toBe('ready');
    const covered = (yard: Yard): void => {
      twoSpaces(yard);
      steps(yard)[1].coveredBy = ['two'];
    };
    // Dust-safe four hours after 09:00, were it not for the cover.
    expect(why('lid.sand', '13:30', twoSpaces, begun)).toBe('ready');
    expect(why('lid.sand', '13:30', covered, begun)).toMatch(/left open$/);
  });
});
