import { describe, expect, it } from 'vitest';

import { CONSUMABLE_RATES, consumablesOf } from './consumables.ts';

describe('consumablesOf', () => {
  it('goes by area and passes, and puts like with like', () => {
    const found = consumablesOf(4, [
      { kind: 'dewax', passes: 1 },
      { kind: 'abrade', passes: 2 },
      { kind: 'wipe', passes: 2 },
    ]);
    expect(found.map(({ id, amount, unit }) => [id, amount, unit])).toEqual([
      ['dewaxing-solvent', 0.4, 'l'],
      ['wipe', 28, 'piece'], // 4 m² × 3, and 4 m² × 2 passes × 2
      ['abrasive', 8, 'piece'],
      ['wiping-solvent', 0.4, 'l'],
    ]);
  });

  it('takes the yard’s own rates in place of common practice', () => {
    const own = [
      { ...CONSUMABLE_RATES[0], perM2: 0.3, trust: 'measured', source: 'store book' } as const,
    ];
    expect(consumablesOf(2, [{ kind: 'dewax', passes: 1 }], own)).toEqual([
      expect.objectContaining({ amount: 0.6, trust: 'measured', source: 'store book' }),
    ]);
  });

  it('says of each rate of its own that it has no source', () => {
    expect(new Set(CONSUMABLE_RATES.map(({ source }) => source))).toEqual(
      new Set(['common practice, no source']),
    );
  });

  it('uses nothing for what leaves nothing, and refuses no area', () => {
    expect(consumablesOf(2, [{ kind: 'peel', passes: 1 }])).toEqual([]);
    expect(() => consumablesOf(0, [{ kind: 'wipe', passes: 1 }])).toThrow('0 m²');
    expect(() => consumablesOf(-1, [])).toThrow('-1 m²');
  });
});
