import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { hundredths } from '../testing/arbitraries.ts';
import { massFactor, potLifeOf } from './pot-life.ts';
import { exactly, mixOf, percentOf, tableOf } from './testing/mixes.ts';

/**
 * A fast epoxy of which both clocks are published at 22 °C: 100 g in a cup 9 to 12 min, the
 * film 60 to 70 min (105/205, user manual, read). The second row of each is invented.
 */
const fast = mixOf({
  milestones: {
    'pot-life': tableOf([
      { celsius: 12, minutes: 21 },
      { celsius: 22, minutes: 10.5 },
    ]),
    'open-time': tableOf([
      { celsius: 12, minutes: 130 },
      { celsius: 22, minutes: 65 },
    ]),
  },
});

describe('potLifeOf', () => {
  it('is the sheet’s at its own mass and thickness', () => {
    expect(potLifeOf(mixOf(), 20, 100, 50)).toBeCloseTo(30, 9);
    expect(potLifeOf(mixOf(), 20, 100, null)).toBeCloseTo(30, 9);
    expect(potLifeOf(mixOf(), 20, 100, 0.2)).toBeCloseTo(30, 9);
    // What is still in the cup does not know how thin it is to be spread.
    expect(potLifeOf(fast, 22, 100, 0.2)).toBeCloseTo(10.5, 9);
  });

  it('falls with mass and thickness by their powers', () => {
    // Eight times the mass to the power of a third: half. Sixteen times as thick to a quarter: half.
    expect(potLifeOf(mixOf(), 20, 800, null)).toBeCloseTo(15, 9);
    expect(potLifeOf(mixOf(), 20, 100, 800)).toBeCloseTo(15, 9);
  });

  it('takes the spread of the law, the yard’s factor and the power’s spread on the safe side', () => {
    const law = tableOf([
      { celsius: 10, minutes: 60 },
      { celsius: 30, minutes: 15 },
    ]);
    const spread = { ...law, spread: 1.2, factor: 0.8 };
    expect(potLifeOf(mixOf({ milestones: { 'pot-life': spread } }), 30, 100, null)).toBeCloseTo(
      (15 * 0.8) / 1.2,
      9,
    );
    const { mass } = mixOf();
    const loose = mixOf({ mass: { ...mass, massPower: { ...exactly(1 / 3), spread: 1.5 } } });
    expect(massFactor(loose, 800, null)).toBeCloseTo(8 ** -0.5, 9);
    // A smaller cup gains by the lesser power.
    expect(massFactor({ ...fast, mass: loose.mass }, 50, null)).toBeCloseTo(2 ** (1 / 4.5), 9);
  });

  it('of thin films comes to the open time, about six times the cup’s, and never beyond', () => {
    // 60 to 70 min over 9 to 12 min: 5 to 7.8 times; what mass and thickness alone give is more.
    const small = potLifeOf(fast, 22, 0.1, null) ?? 0;
    expect(small).toBeCloseTo(65, 9);
    expect(small / (potLifeOf(fast, 22, 100, null) ?? 0)).toBeCloseTo(6.2, 1);
    expect(10.5 * massFactor(fast, 0.1, null)).toBeGreaterThan(65);
  });

  it('gives small cups no credit where the sheet has no open time', () => {
    expect(potLifeOf(mixOf(), 20, 1, null)).toBeCloseTo(30, 9);
    expect(potLifeOf(fast, 22, 50, null)).toBeCloseTo(10.5 * 2 ** (1 / 3), 9);
  });

  it('is null outside the limits, and without a pot life on the sheet', () => {
    expect(potLifeOf(mixOf(), 9.9, 100, null)).toBeNull();
    expect(potLifeOf(mixOf(), 30.1, 100, null)).toBeNull();
    expect(potLifeOf(mixOf(), NaN, 100, null)).toBeNull();
    expect(potLifeOf(mixOf({ milestones: {} }), 20, 100, null)).toBeNull();
  });

  it('is longer with less hardener, where an effect is known', () => {
    const slow = mixOf({ hardener: percentOf(1, 1) });
    // time ~ (1 / 2)^-1
    expect(potLifeOf(slow, 20, 100, null)).toBeCloseTo(60, 9);
  });

  it('can be of a rate model: the closed form of m + n = 2', () => {
    // da/dt = k a^.5 (1 - a)^1.5, k = .01 /min: t = 2/k (sqrt(a/(1-a)) - sqrt(a0/(1-a0))), calculated.
    const law = {
      ...tableOf([]),
      kind: 'conversion',
      k1: { a: 0, e: 0 },
      k2: { a: 0.01, e: 0 },
      m: 0.5,
      n: 1.5,
      initial: 0.01,
      reached: 0.2,
    } as const;
    const exact = 200 * (Math.sqrt(0.25) - Math.sqrt(0.01 / 0.99));
    expect(potLifeOf(mixOf({ milestones: { 'pot-life': law } }), 20, 100, null)).toBeCloseTo(
      exact,
      4,
    );
  });

  it('never grows with warmth, mass or thickness', () => {
    const celsius = hundredths(10, 30);
    const grams = fc.double({ min: 1, max: 20_000, noNaN: true });
    const mm = fc.double({ min: 0.1, max: 200, noNaN: true });
    fc.assert(
      fc.property(
        fc.tuple(celsius, celsius),
        fc.tuple(grams, grams),
        fc.tuple(mm, mm),
        fc.constantFrom(mixOf(), fast),
        (c, g, d, material) => {
          const of = (pick: (...values: number[]) => number): number =>
            potLifeOf(material, pick(...c), pick(...g), pick(...d)) ?? NaN;
          const [least, most] = [of(Math.max), of(Math.min)];
          expect(least).toBeLessThanOrEqual(most);
        },
      ),
    );
  });
});
