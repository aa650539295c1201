import { describe, expect, it } from 'vitest';

import type { CureMaterial } from '../material/material.ts';
import { pipeCoating } from '../testing/published.ts';
import { batchCount, batchLimit, potLife } from './batch.ts';

// 9-12 min at 22 degC is a published fast epoxy (100 g cup); the second row is invented.
const rows = [
  { celsius: 16, minutes: 18 },
  { celsius: 22, minutes: 10.5 },
];
const fast: CureMaterial = {
  ...pipeCoating,
  milestones: { 'pot-life': { rows, source: 'test' } },
  maximumC: 30,
};

describe('batches', () => {
  it('reads the pot life at a temperature, shorter above the sheet, none outside the limits', () => {
    expect(potLife(fast, 22)).toBeCloseTo(10.5, 9);
    expect(potLife(fast, 28)).toBeLessThan(7);
    expect(potLife(fast, 31)).toBeNull();
    expect(potLife(fast, 3)).toBeNull();
    expect(potLife(pipeCoating, 20)).toBeNull();
  });

  it('uses each batch up in half its pot life', () => {
    expect(batchLimit(10.5)).toBe(5);
    expect(batchLimit(1)).toBe(1);
    expect([0, 5, 6, 60].map((spread) => batchCount(spread, 10.5))).toEqual([0, 1, 2, 12]);
  });
});
