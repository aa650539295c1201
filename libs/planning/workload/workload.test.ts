import { describe, expect, it } from 'vitest';
import { jobOf, smallYard } from '../testing/small-yard.ts';
import type { Yard } from '../yard/yard.ts';
import { makeWorkload } from './make.ts';
import { resize } from './resize.ts';
import { workMinutes } from './size.ts';

/** The small yard's part once more, after the first. */
function twoJobs(yard: Yard): void {
  yard.boats[0].refits[0].parts[0].jobs.push(jobOf('again', ['lid']));
}

describe('makeWorkload', () => {
  it('makes a task of each step, sized by the part', () => {
    const { tasks } = makeWorkload(smallYard());
    expect(tasks.map(({ id, workMinutes: minutes }) => [id, minutes])).toEqual([
      ['lid.sand', 50], // 10 + 20 min/m2 * 2 m2
      ['lid.one', 60],
      ['lid.key', 30],
      ['lid.two', 60],
    ]);
    expect(tasks[1]).toMatchObject({
      space: 'shop',
      material: 'resin',
      refitId: 'gull-refit',
      partId: 'lid',
      state: 'waiting',
    });
  });

  it('takes a step to its own space where it names one', () => {
    const yard = smallYard((draft) => {
      draft.spaces.push({ ...draft.spaces[0], id: 'yard', name: 'Yard' });
      draft.procedures[0].steps[0].space = 'yard';
    });
    expect(makeWorkload(yard).tasks.map(({ space }) => space)).toEqual([
      'yard',
      'shop',
      'shop',
      'shop',
    ]);
  });

  it('says what is weighed, in how many cups, and what is made ready', () => {
    const quantity = { kind: 'coat', gramsPerM2: 150, coats: 1, wastePercent: 10 } as const;
    const wipe = { kind: 'wipe', grit: null, mm: null, passes: 2 } as const;
    const { tasks } = makeWorkload(
      smallYard((draft) => {
        const { steps } = draft.procedures[0];
        Object.assign(steps[1], { quantity, oneBatch: true, bonding: 'cosmetic' });
        steps[2].prepares = [wipe];
      }),
    );
    const told = tasks.map(({ quantity: what, oneBatch, prepares, bonding }) => [
      what,
      oneBatch,
      prepares,
      bonding,
    ]);
    expect(told).toEqual([
      [null, false, [], 'structural'],
      [quantity, true, [], 'cosmetic'],
      [null, false, [wipe], 'structural'],
      [null, false, [], 'structural'],
    ]);
  });

  it('keeps links and choices, with the ids of the job', () => {
    const { links, choices } = makeWorkload(smallYard());
    expect(links.map(({ id, from, to }) => [id, from, to])).toEqual([
      ['lid.sand-one', 'lid.sand', 'lid.one'],
      ['lid.bond', 'lid.one', 'lid.two'],
      ['lid.hard', 'lid.one', 'lid.key'],
      ['lid.keyed', 'lid.key', 'lid.two'],
    ]);
    expect(choices).toEqual([
      {
        id: 'lid.next',
        name: 'Bond or prepare',
        partId: 'lid',
        branches: [
          { id: 'bond', name: 'in the window', tasks: [], links: ['lid.bond'] },
          { id: 'prepare', name: 'abraded', tasks: ['lid.key'], links: [] },
        ],
      },
    ]);
  });

  it('orders jobs from the last tasks of the one to the first of the other', () => {
    const { links } = makeWorkload(smallYard(twoJobs));
    // Coat two always follows coat one, by `bond` in one branch and by way of `key` in the other.
    expect(links.filter(({ id }) => id.includes('..')).map(({ from, to }) => [from, to])).toEqual([
      ['lid.two', 'again.sand'],
    ]);
  });
});

describe('workMinutes', () => {
  const part = {
    id: 'p',
    name: 'P',
    space: 's',
    areaM2: 0.1,
    edgeM: 2,
    jointM: 3,
    layers: [],
    jobs: [],
  };
  const effort = { fixed: 0, perM2: 0, perEdgeM: 0, perJointM: 0, source: 'test' };

  it.each([
    [{ ...effort, perM2: 30 }, 3], // 3.0000000000000004 in binary
    [{ ...effort, perM2: 31 }, 4],
    [{ ...effort, fixed: 5, perEdgeM: 10, perJointM: 2 }, 31],
    [effort, 1],
  ])('%j', (given, minutes) => {
    expect(workMinutes(given, part)).toBe(minutes);
  });
});

describe('resize', () => {
  it('sizes anew what has not begun, of that part only', () => {
    const yard = smallYard();
    const { tasks } = makeWorkload(yard);
    const begun = tasks.map((task, k) => (k === 0 ? { ...task, state: 'done' as const } : task));
    yard.boats[0].refits[0].parts[0].areaM2 = 4;
    expect(resize(begun, yard, 'lid').map(({ workMinutes: minutes }) => minutes)).toEqual([
      50, 90, 50, 90,
    ]);
    expect(resize(begun, yard, 'other')).toEqual(begun);
  });
});
