import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { hundredths } from '../testing/arbitraries.ts';
import { massFit, type TimedCup } from './mass-fit.ts';

const cup = (grams: number, age: number): TimedCup => ({ id: `cup-${String(grams)}`, grams, age });

describe('massFit', () => {
  it('finds the power and factor that made the cups', () => {
    fc.assert(
      fc.property(
        hundredths(0, 1),
        hundredths(0.5, 2),
        fc.uniqueArray(fc.integer({ min: 20, max: 5000 }), { minLength: 3, maxLength: 8 }),
        (power, factor, masses) => {
          fc.pre(Math.max(...masses) >= 1.5 * Math.min(...masses));
          const cups = masses.map((grams) => cup(grams, factor * (grams / 100) ** -(power + 1e-6)));
          const fit = massFit(cups, 100);
          expect(fit.power).toBeCloseTo(power, 5);
          expect(fit.factor).toBeCloseTo(factor, 4);
          expect(fit.spread).toBeCloseTo(1, 6);
        },
      ),
    );
  });

  it('says how far the cups are from their law', () => {
    // On log axes: x = 0, ln 2, ln 4 and y = 0.1, 0, -0.5 in units of ln 2, by hand:
    // slope (-0.5 - 0.1) / 2 = -0.3, mean of y -0.4 / 3, so residuals -0.0667, 0.1333, -0.0667.
    const two = (power: number): number => 2 ** power;
    const fit = massFit([cup(100, two(0.1)), cup(200, two(0)), cup(400, two(-0.5))], 100);
    expect(fit.power).toBeCloseTo(0.3, 9);
    expect(fit.factor).toBeCloseTo(two(-0.4 / 3 + 0.3), 9);
    const scatter = Math.sqrt(0.0667 ** 2 * 2 + 0.1333 ** 2) * Math.LN2;
    expect(Math.log(fit.spread)).toBeCloseTo(scatter, 3);
    expect(fit.error).toBeCloseTo(scatter / (Math.SQRT2 * Math.LN2), 3);
    expect(fit.words).toMatch(/^3 cups of 100 to 400 g: power 0\.3 ± /);
  });

  it('refuses too few cups, like masses, and larger cups that lasted longer', () => {
    expect(() => massFit([cup(100, 1), cup(800, 0.5)], 100)).toThrow('2 timed cups do not say');
    expect(() =>
      massFit(
        [100, 110, 120].map((grams) => cup(grams, 1)),
        100,
      ),
    ).toThrow('3 timed cups do not say');
    expect(() => massFit([cup(100, 1), cup(200, 1.5), cup(400, 2)], 100)).toThrow('lasted longer');
    expect(() => massFit([cup(100, 1), cup(200, -1), cup(400, 2)], 100)).toThrow('cup-200');
  });
});
