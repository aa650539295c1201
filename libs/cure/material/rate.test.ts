import { describe, expect, it } from 'vitest';

import { tableLaw } from '../testing/cure-material.ts';
import { lawSpread, HARDNESS_SPREAD } from './law.ts';
import { kinksOf, rateOf } from './rate.ts';

describe('rate between rows', () => {
  it('is exact for an Arrhenius rate', () => {
    // 50 kJ/mol has Q10 = 1.97 from 20 to 30 degC and 0.7089 of its 25 degC rate at 20 (calculated).
    const minutes = (celsius: number): number =>
      60 * Math.exp((50_000 / 8.314) * (1 / (celsius + 273.15) - 1 / 298.15));
    const law = tableLaw([0, 15, 45].map((celsius) => [celsius, minutes(celsius)] as const));
    const rate = rateOf(law, 'open', 0);
    expect(rate(25) * 60).toBeCloseTo(1, 12);
    expect(rate(20) * 60).toBeCloseTo(0.7089, 4);
    expect(rate(30) / rate(20)).toBeCloseTo(1.97, 2);
    for (const celsius of [1, 7.5, 15, 22, 38, 45]) {
      expect(rate(celsius) * minutes(celsius)).toBeCloseTo(1, 12);
    }
    const slow = rateOf(law, 'open', 0, { scale: 1.5 });
    expect(slow(22) * minutes(22) * 1.5).toBeCloseTo(1, 12);
  });

  it('is the same from an activation energy, and doubles for 51.2 kJ/mol from 20 to 30 degC', () => {
    // Energy for exactly Q10 = 2 from 20 to 30 degC: 51.2 kJ/mol (calculated).
    const at = { celsius: 20, minutes: 40 };
    const arrhenius = rateOf({ kind: 'activation', at, kjPerMol: 51.2 }, 'expected', 0);
    const doubling = rateOf({ kind: 'doubling', at, per10C: 2 }, 'expected', 0);
    expect(arrhenius(20) * 40).toBeCloseTo(1, 12);
    expect(arrhenius(30) * 20).toBeCloseTo(1, 3);
    expect(doubling(30) * 20).toBeCloseTo(1, 12);
    expect(doubling(10) * 80).toBeCloseTo(1, 12);
  });

  it('knows where it bends', () => {
    const law = tableLaw([
      [0, 100],
      [15, 50],
      [45, 10],
    ]);
    expect(kinksOf(law, 5)).toEqual([5, 15, 45]);
    const fallback = { kind: 'doubling', at: { celsius: 20, minutes: 40 }, per10C: 2 } as const;
    expect(kinksOf(fallback, 5, { maximumC: 30 })).toEqual([5, 30]);
  });
});

describe('spread of a law', () => {
  it('is that of its trust, at least a fallback’s, and at least what hardness is known to miss', () => {
    expect(lawSpread('table', 'read', 'gel')).toBe(1.15);
    expect(lawSpread('doubling', 'read', 'gel')).toBe(1.25);
    expect(lawSpread('activation', 'practice', 'gel')).toBe(1.5);
    expect(lawSpread('table', 'measured', 'sandable')).toBe(HARDNESS_SPREAD);
    expect(lawSpread('table', 'sheet', 'cured')).toBe(HARDNESS_SPREAD);
  });
});
