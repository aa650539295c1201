import { describe, expect, it } from 'vitest';

import { exactly, mixOf, percentOf } from './testing/mixes.ts';
import { hardenerWarning, weigh } from './weigh.ts';

const percent = (used: number, density: number | null = 1.17) => ({
  ...mixOf({ hardenerDensity: density === null ? null : exactly(density) }),
  hardener: { ...percentOf(used), block: [0.5, 3] as const },
});

/** Enough mix for a kilogram of resin. */
const forOneKg = (used: number, density: number | null) =>
  weigh(percent(used, density), 1000 + 10 * used);

describe('millilitres of peroxide for a kilogram of resin', () => {
  // Calculated: 10 g for each percent, over the density (1.15 to 1.18 by product; 1.18 from memory).
  it.each([
    [1.15, [8.7, 10.9, 13.0, 17.4, 21.7]],
    [1.17, [8.5, 10.7, 12.8, 17.1, 21.4]],
    [1.18, [8.5, 10.6, 12.7, 16.9, 21.2]],
  ])('at %f kg/l', (density, millilitres) => {
    const shares = [1, 1.25, 1.5, 2, 2.5];
    const rows = shares.map((used) => forOneKg(used, density));
    expect(rows.map(({ hardenerMl }) => hardenerMl)).toEqual(millilitres);
    expect(rows.map(({ hardenerGrams }) => hardenerGrams)).toEqual([10, 12.5, 15, 20, 25]);
    expect(rows.every(({ resinGrams }) => resinGrams === 1000)).toBe(true);
  });

  it('are not shown where the density is not known', () => {
    expect(forOneKg(2, null)).toMatchObject({
      hardenerGrams: 20,
      hardenerMl: null,
      hardenerDensity: null,
      ratio: '2 % of the resin by mass',
    });
  });

  it('by volume: "2 %" as 20 ml to the kilogram is 2.34 % by mass, a sixth too much', () => {
    // The convention by volume (Scott Bader's guides, read) against by mass; a UK guide calls it "by weight".
    const { ratio, hardenerMl } = forOneKg(2, 1.17);
    expect(ratio).toBe('2 % of the resin by mass (20 ml to 1 kg would be 2.34 %)');
    expect(20 / (hardenerMl ?? 0)).toBeCloseTo(1.17, 2);
    expect(forOneKg(2.34, 1.17)).toMatchObject({ hardenerGrams: 23.4, hardenerMl: 20 });
    // 10 ml to a litre of resin of 1.10 kg/l are 1.06 % by mass: 11.7 g to 1100 g.
    expect(weigh(percent(1.06), 1100 * 1.0106)).toMatchObject({
      resinGrams: 1100,
      hardenerGrams: 11.7,
      hardenerMl: 10,
    });
  });
});

describe('weigh', () => {
  it('keeps a ratio by mass', () => {
    const epoxy = mixOf({
      hardener: { kind: 'ratio', per100: exactly(20) },
      hardenerDensity: exactly(0.96),
    });
    expect(weigh(epoxy, 600)).toEqual({
      resinGrams: 500,
      hardenerGrams: 100,
      hardenerMl: 104.2,
      hardenerDensity: 0.96,
      ratio: '20 g to 100 g of resin',
    });
  });

  it('makes resin and hardener add up to the mix', () => {
    for (const grams of [1, 37.3, 333.3, 12_345.6]) {
      const { resinGrams, hardenerGrams } = weigh(percent(1.8), grams);
      expect(resinGrams + hardenerGrams).toBeCloseTo(grams, 9);
    }
  });

  it('never leaves the hardener out of a little mix', () => {
    expect(weigh(percent(2), 8)).toMatchObject({
      resinGrams: 7.84,
      hardenerGrams: 0.16,
      hardenerMl: 0.13,
    });
    expect(weigh(percent(1), 0.5)).toMatchObject({ resinGrams: 0.49, hardenerGrams: 0.01 });
    // To a tenth again from one gram on.
    expect(weigh(percent(2), 51)).toMatchObject({ resinGrams: 50, hardenerGrams: 1 });
  });

  it('refuses a percentage outside the range, no ratio, no mix', () => {
    expect(() => weigh(mixOf({ hardener: percentOf(2.6) }), 100)).toThrow(
      'Resin is mixed with 2.6 % hardener, outside 1 to 2.5 %',
    );
    expect(() => weigh(mixOf({ hardener: percentOf(0.9) }), 100)).toThrow('outside 1 to 2.5 %');
    expect(() => weigh(mixOf({ hardener: null }), 100)).toThrow('has no mixing ratio');
    expect(() => weigh(mixOf(), 0)).toThrow('0 g of mix');
    expect(() => weigh(mixOf(), -5)).toThrow('-5 g of mix');
  });

  it('warns of a percentage that is allowed but unusual', () => {
    expect(hardenerWarning(mixOf({ hardener: percentOf(2.2) }))).toContain('the usual 1 to 2 %');
    const low = { ...percentOf(1.1), warn: [1.2, 2] as const };
    expect(hardenerWarning(mixOf({ hardener: low }))).toContain('the usual 1.2 to 2 %');
    expect(hardenerWarning(mixOf({ hardener: percentOf(2) }))).toBeNull();
  });
});
