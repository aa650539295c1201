import { describe, expect, it } from 'vitest';
import { smallYard } from '../testing/small-yard.ts';
import type { Yard } from '../yard/yard.ts';
import { linkWords } from './link-words.ts';
import { procedurePreview, type PreviewQuestion } from './procedure-preview.ts';

function preview(yard: Yard, more: Partial<PreviewQuestion> = {}) {
  const [procedure] = yard.procedures;
  const sizes = { areaM2: 4, edgeM: 0, jointM: 0 };
  return procedurePreview(yard, { procedure, ...sizes, space: 'shop', destination: null, ...more });
}

/** Resin is weighed for the first coat, a stock is taken from for the second. */
function weighing(yard: Yard): void {
  const { steps } = yard.procedures[0];
  steps[1].quantity = { kind: 'coat', gramsPerM2: 150, coats: 1, wastePercent: 10 };
}

describe('the tasks that a procedure would make', () => {
  it('are sized by the part, with the windows between them in words', () => {
    const { tasks } = preview(smallYard());
    expect(tasks.map(({ task }) => [task.stepId, task.workMinutes])).toEqual([
      ['sand', 90], // 10 + 20 min/m2 * 4 m2
      ['one', 90],
      ['key', 50],
      ['two', 90],
    ]);
    const [, one, key, two] = tasks;
    expect(one.waits.map(({ words }) => words)).toEqual(['after “Sand”']);
    expect(key.waits.map(({ words }) => words)).toEqual([
      'when the film of “Coat one” is sandable',
    ]);
    expect(two.waits).toEqual([
      {
        stepId: 'one',
        words: 'when the film of “Coat one” is ready to bond, before it is past its bond window',
        way: { choice: 'next', branch: 'bond' },
      },
      {
        stepId: 'key',
        words: 'after “Abrade”, no more than 8 h after it',
        way: null,
      },
    ]);
  });

  it('add up by the shortest and the longest way through the choices', () => {
    const { tasks, choices, workMinutes } = preview(smallYard());
    expect(tasks.map(({ way }) => way?.branch ?? null)).toEqual([null, null, 'prepare', null]);
    expect(choices[0].branches.map(({ id, workMinutes: minutes }) => [id, minutes])).toEqual([
      ['bond', 0],
      ['prepare', 50],
    ]);
    expect(workMinutes).toEqual({ least: 270, most: 320 });
  });

  it('say what is mixed, or what is lacking to weigh it', () => {
    const [, coat] = preview(smallYard(weighing)).tasks;
    expect(coat.mix?.mixGrams).toBeCloseTo(4 * 150 * 1.1, 6);
    expect(coat.lacks).toBeNull();
    const [, none] = preview(smallYard(weighing), { areaM2: 0 }).tasks;
    expect(none.mix).toBeNull();
    expect(none.lacks).toMatch(/area of the part is 0 m².*more than 0/);
  });

  it('take as long as their space asks for, and leave the yard as it was', () => {
    const yard = smallYard((draft) => {
      draft.spaces[0].workPercent = 200;
    });
    const before = structuredClone(yard);
    expect(preview(yard).tasks[0].task.workMinutes).toBe(180);
    expect(yard).toEqual(before);
  });
});

describe('a link in words', () => {
  const at = (minutes: number) => ({ kind: 'after', minutes }) as const;
  const film = (milestone: 'gel' | 'sandable') => ({ kind: 'milestone', milestone }) as const;
  it.each([
    [at(0), null, 'unknown', 'after “Wipe”'],
    [at(15), at(240), 'unknown', '15 min after “Wipe”, or later, no more than 4 h after it'],
    [
      at(0),
      film('gel'),
      'same',
      'after “Wipe”, before the film of “Wipe” is gelled, going over the surface in the same order',
    ],
    [
      film('sandable'),
      at(2880),
      'unknown',
      'when the film of “Wipe” is sandable, no more than 2 days after “Wipe”',
    ],
    [null, at(60), 'unknown', 'no more than 1 h after “Wipe”'],
  ] as const)('%j to %j', (opens, closes, sweep, words) => {
    expect(linkWords({ opens, closes, sweep }, 'Wipe')).toBe(words);
  });
});
