import { describe, expect, it } from 'vitest';

import { hardenerFactor } from '../material/hardener.ts';
import type { CureMaterial } from '../material/material.ts';
import { CLASSES, classOf } from './classes.ts';

const get = (id: string): CureMaterial => {
  const found = classOf(id);
  if (found === undefined) throw new Error(id);
  return found;
};

describe('hardener', () => {
  const mixed = (id: string, used: number): CureMaterial => {
    const material = get(id);
    if (material.hardener?.kind !== 'percent') throw new Error(id);
    return { ...material, hardener: { ...material.hardener, used } };
  };

  it('warns outside 1 to 2 % and refuses outside 1 to 2.5 % (X3)', () => {
    for (const { id, hardener } of CLASSES) {
      if (hardener?.kind !== 'percent') continue;
      expect([hardener.warn, hardener.block], id).toEqual([
        [1, 2],
        [1, 2.5],
      ]);
      expect(hardener.used, id).toBe(hardener.usual.value);
      expect(hardener.used >= 1 && hardener.used <= 2, id).toBe(true);
    }
    for (const used of [0.9, 2.6]) {
      expect(() => hardenerFactor(mixed('laminating-polyester', used))).toThrow(
        expect.objectContaining({ code: 'cure.hardener' }),
      );
    }
  });

  it('does not guess what another percentage does to the times', () => {
    expect(hardenerFactor(mixed('laminating-polyester', 2))).toBe(1);
    expect(() => hardenerFactor(mixed('laminating-polyester', 1.5))).toThrow(
      expect.objectContaining({ code: 'cure.missing' }),
    );
  });

  it('allows for 2 % by volume being 2.34 % by mass (X3c)', () => {
    const { hardener } = get('laminating-polyester');
    if (hardener?.kind !== 'percent') throw new Error('percent');
    // 20 ml/kg of 1.17 kg/l is 23.4 g/kg.
    expect(hardener.usual.value * hardener.usual.spread).toBeCloseTo(2.34, 10);
  });

  it('spans the whole range that the guide to vinyl esters prints, 1.0 to 1.5 % (read)', () => {
    const { hardener } = get('vinyl-ester');
    if (hardener?.kind !== 'percent') throw new Error('percent');
    const { value, spread } = hardener.usual;
    expect(value / spread).toBeLessThanOrEqual(1);
    expect(value * spread).toBeGreaterThanOrEqual(1.5);
  });

  it('weighs no epoxy without its sheet', () => {
    for (const { base, hardener } of CLASSES) if (base === 'epoxy') expect(hardener).toBeNull();
  });
});
