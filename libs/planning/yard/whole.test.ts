import { describe, expect, it } from 'vitest';
import { DomainError, type Fault } from '#kernel/error.ts';
import { smallYard } from '../testing/small-yard.ts';
import { partSchema } from './boats.ts';
import { readYard } from './read.ts';
import type { Step } from './procedures.ts';
import { yardSchema, type Yard } from './yard.ts';

function faultsOf(change: (draft: Yard) => void): readonly Fault[] {
  try {
    readYard(smallYard(change), 'test.json');
  } catch (error) {
    if (error instanceof DomainError) return error.faults;
    throw error;
  }
  return [];
}

const steps = (yard: Yard): Step[] => yard.procedures[0].steps;
const firstJob = (yard: Yard) => yard.boats[0].refits[0].parts[0].jobs[0];

const holdPoint = (yard: Yard): Step => ({
  ...steps(yard)[0],
  id: 'look',
  name: 'Owner looks',
  skill: null,
  crewMin: 0,
  crewMax: 0,
  effort: { ...steps(yard)[0].effort, fixed: 0, perM2: 0 },
  air: 'clean',
  tools: [],
});

const slot = {
  from: '2026-11-03T08:00:00Z',
  to: '2026-11-03T09:00:00Z',
  price: 0,
  noticeHours: 0,
  booked: false,
};

describe('a yard file from before these fields', () => {
  it('means what it meant', () => {
    const bare: unknown = JSON.parse(
      JSON.stringify(smallYard(), (key: string, value: unknown) =>
        ['holds', 'move', 'onPart', 'hourlyCost', 'overtime', 'barriers', 'slotLists'].includes(key)
          ? undefined
          : value,
      ),
    );
    expect(readYard(bare, 'test.json')).toEqual(smallYard());
    expect(yardSchema.parse(bare)).toMatchObject({ currency: 'EUR', stocks: [], deliveries: [] });
  });
});

describe('readYard accepts', () => {
  it.each<[string, (draft: Yard) => void]>([
    [
      'a hold point whose word is expected',
      (yard) => {
        steps(yard).push(holdPoint(yard));
        firstJob(yard).words = [{ step: 'look', expected: '2026-11-03T08:00:00Z' }];
      },
    ],
    [
      'a hold point that waits for a slot',
      (yard) => {
        yard.slotLists = [{ id: 'surveyor', name: 'Surveyor', kind: 'surveyor', slots: [slot] }];
        steps(yard).push({ ...holdPoint(yard), slots: 'surveyor' });
      },
    ],
    [
      'a carry to the job’s destination',
      (yard) => {
        steps(yard)[0].move = { kind: 'destination' };
        firstJob(yard).destination = 'shop';
      },
    ],
    [
      'a barrier in the way of dust',
      (yard) => {
        const blocks = [{ from: 'shop', to: 'shop' }];
        yard.barriers = [{ id: 'door', name: 'Door', closed: true, blocks }];
        steps(yard)[0].barrier = { barrier: 'door', closes: false };
      },
    ],
  ])('%s', (_, change) => {
    expect(faultsOf(change)).toEqual([]);
  });
});

describe('readYard refuses', () => {
  it.each<[string, (draft: Yard) => void, Partial<Fault>]>([
    [
      'a hold point that nobody’s word releases',
      (yard) => steps(yard).push(holdPoint(yard)),
      {
        code: 'yard.reference',
        path: 'boats[0].refits[0].parts[0].jobs[0].words',
        message: 'Owner looks of lid waits for a word that is expected at no time',
      },
    ],
    [
      'a hold point that does something',
      (yard) => steps(yard).push({ ...holdPoint(yard), air: 'dusty', slots: null }),
      { code: 'input.field', path: 'procedures[0].steps[4].skill' },
    ],
    [
      'a word for a step with a crew',
      (yard) => (firstJob(yard).words = [{ step: 'sand', expected: slot.from }]),
      { message: '"sand" has a crew, and waits for nobody\'s word' },
    ],
    [
      'a skill without anybody to have it',
      (yard) => (steps(yard)[0].crewMin = 0),
      {
        path: 'procedures[0].steps[0].crewMin',
        message: 'Sand needs a skill, and nobody to have it',
      },
    ],
    [
      'a destination that the job does not name',
      (yard) => (steps(yard)[0].move = { kind: 'destination' }),
      {
        path: 'boats[0].refits[0].parts[0].jobs[0].destination',
        message: 'Sand takes Lid to the destination of lid, which has none',
      },
    ],
    [
      'a move in one branch only',
      (yard) => (steps(yard)[2].move = { kind: 'turn' }),
      { path: 'procedures[0].steps[2].move' },
    ],
    [
      'a move of a part that others work on',
      (yard) => Object.assign(steps(yard)[0], { move: { kind: 'turn' }, onPart: false }),
      { path: 'procedures[0].steps[0].move' },
    ],
    [
      'a part joined to itself',
      (yard) => (firstJob(yard).joins = ['lid']),
      { message: 'Lid is joined to itself' },
    ],
    [
      'a part of another refit joined',
      (yard) => {
        const [boat] = structuredClone(yard.boats);
        const part = partSchema.parse({ id: 'rudder', name: 'Rudder', space: 'shop', areaM2: 1 });
        const refits = [{ ...boat.refits[0], id: 'tern-refit', parts: [part] }];
        yard.boats.push({ ...boat, id: 'tern', refits });
        firstJob(yard).joins = ['rudder'];
      },
      { code: 'yard.reference', value: 'rudder' },
    ],
    [
      'more held than there is',
      (yard) => {
        const until = [{ kind: 'after' as const, minutes: 5 }];
        steps(yard)[0].holds = [{ id: 'h', tool: 'sander', count: 2, until }];
      },
      {
        path: 'procedures[0].steps[0].holds[0].count',
        message: 'Sand holds 2 of sander; the yard has 1',
      },
    ],
    [
      'a hold until a milestone of no film',
      (yard) => {
        const until = [{ kind: 'milestone' as const, milestone: 'handle' as const }];
        steps(yard)[0].holds = [{ id: 'h', tool: 'sander', count: 1, until }];
      },
      { path: 'procedures[0].steps[0].holds[0].until[0].milestone' },
    ],
    [
      'a hold until a milestone that the sheet lacks',
      (yard) => {
        const until = [{ kind: 'milestone' as const, milestone: 'handle' as const }];
        steps(yard)[1].holds = [{ id: 'h', tool: 'sander', count: 1, until }];
      },
      { code: 'cure.missing', value: 'handle' },
    ],
    [
      'a clean-down after work that pauses',
      (yard) => (steps(yard)[0].cleanDownMinutes = 10),
      { path: 'procedures[0].steps[0].cleanDownMinutes' },
    ],
    [
      'a cover over nothing',
      (yard) => (steps(yard)[0].coveredBy = ['one']),
      { path: 'procedures[0].steps[0].coveredBy' },
    ],
    [
      'dusty work that bears no dust',
      (yard) => (steps(yard)[0].sensitiveUntil = { kind: 'after', minutes: 60 }),
      { path: 'procedures[0].steps[0].sensitiveUntil' },
    ],
    [
      'stock, barrier, slots and delivery that are not there',
      (yard) => {
        steps(yard)[0].consumes = [{ stock: 'x', fixed: 1, perM2: 0, perEdgeM: 0, perJointM: 0 }];
        steps(yard)[0].barrier = { barrier: 'x', closes: true };
        steps(yard)[0].slots = 'x';
        firstJob(yard).waitsFor = [{ delivery: 'x', step: null }];
      },
      { path: 'boats[0].refits[0].parts[0].jobs[0].waitsFor[0].delivery', value: 'x' },
    ],
    [
      'a barrier where no dust goes',
      (yard) => {
        yard.spaces.push({ ...yard.spaces[0], id: 'loft', name: 'Loft', dustReaches: [] });
        const blocks = [{ from: 'loft', to: 'shop' }];
        yard.barriers = [{ id: 'door', name: 'Door', closed: false, blocks }];
      },
      {
        path: 'barriers[0].blocks[0]',
        message: 'Door bars dust from loft to shop, where none goes',
      },
    ],
    [
      'two barriers on one way',
      (yard) => {
        const blocks = [{ from: 'shop', to: 'shop' }];
        yard.barriers = ['door', 'sheet'].map((id) => ({ id, name: id, closed: false, blocks }));
      },
      { code: 'yard.duplicate', path: 'barriers[1].blocks[0]' },
    ],
    [
      'a slot that ends before it begins',
      (yard) =>
        (yard.slotLists = [
          { id: 'c', name: 'Crane', kind: 'crane', slots: [{ ...slot, to: slot.from }] },
        ]),
      { path: 'slotLists[0].slots[0].to' },
    ],
    [
      'overtime that overlaps itself',
      (yard) =>
        (yard.people[0].overtime = [
          { weekday: 1, from: '16:00', to: '18:00' },
          { weekday: 1, from: '17:00', to: '19:00' },
        ]),
      { code: 'yard.shifts-overlap', path: 'people[0].overtime[1]' },
    ],
    [
      'handovers out of order',
      (yard) =>
        (yard.boats[0].refits[0].handovers = ['2026-11-09T08:00:00Z', '2026-11-06T08:00:00Z']),
      { path: 'boats[0].refits[0].handovers[1]' },
    ],
  ])('%s', (_, change, expected) => {
    expect(faultsOf(change)).toContainEqual(expect.objectContaining(expected));
  });
});
