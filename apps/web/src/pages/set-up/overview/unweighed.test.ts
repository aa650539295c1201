import { describe, expect, it } from 'vitest';
import { unweighed } from './unweighed.ts';

const epoxy = { id: 'epoxy', name: 'Epoxy', classId: 'epoxy-slow', hardener: null };
const gelCoat = { id: 'gel', name: 'Gel coat', classId: 'gel-coat', hardener: null };
const percent = { kind: 'percent', used: 2, warn: null, block: null } as const;
const classes = [
  { id: 'epoxy-slow', hardener: null },
  { id: 'gel-coat', hardener: percent },
];
const quantity = { coats: null, fabrics: [], gramsPerM2: 100 } as never;
const mixes = (...ids: (string | null)[]) => [
  { steps: ids.map((material) => ({ material, quantity })) },
];

describe('what nobody can weigh', () => {
  it('is what procedures mix and neither the yard nor the class says the hardener of', () => {
    expect(unweighed([epoxy, gelCoat], classes, mixes('epoxy', 'gel', null))).toEqual([epoxy]);
    const unknown = { ...epoxy, classId: null };
    expect(unweighed([unknown], classes, mixes('epoxy'))).toEqual([unknown]);
  });

  it('is nothing that is entered, not mixed, or laid without weighing', () => {
    const figure = { value: 40, source: 'sheet', trust: 'sheet', spread: null } as const;
    const entered = { ...epoxy, hardener: { kind: 'ratio', per100: figure } as const };
    expect(unweighed([entered], classes, mixes('epoxy'))).toEqual([]);
    expect(unweighed([epoxy], classes, mixes('gel'))).toEqual([]);
    const laid = [{ steps: [{ material: 'epoxy', quantity: null }] }];
    expect(unweighed([epoxy], classes, laid)).toEqual([]);
  });
});
