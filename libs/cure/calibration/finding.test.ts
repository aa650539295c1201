import { describe, expect, it } from 'vitest';

import { cureClock, reachedAt } from '../clock/cure-clock.ts';
import { certain, constantBand, type TemperatureSeries } from '../clock/series.ts';
import { figure } from '../evidence/figure.ts';
import type { CureLaw, CureMaterial, Hardener } from '../material/material.ts';
import { cureMaterialOf, limitsOf, tableLaw } from '../testing/cure-material.ts';
import { pipeCoating } from '../testing/published.ts';
import { findingOf, type Sighting } from './finding.ts';

const sighting = (change: Partial<Sighting>): Sighting => ({
  id: 'one',
  milestone: 'gel',
  found: 'just-now',
  material: pipeCoating,
  band: constantBand(21, 3),
  laid: 0,
  at: 52,
  grams: null,
  hardenerPercent: null,
  ...change,
});

const age = (change: Partial<Sighting>): number => findingOf(sighting(change)).age;

/** A cold night: 20 degrees falling to 6 and rising again, in lines of ten minutes. */
const night: TemperatureSeries = {
  shape: 'lines',
  start: 0,
  step: 10,
  celsius: Float64Array.from({ length: 145 }, (_, k) => 13 + 7 * Math.cos((k * Math.PI) / 72)),
};

const withGel = (law: CureLaw): CureMaterial => ({
  ...pipeCoating,
  milestones: { ...pipeCoating.milestones, gel: law },
});

describe('the age at which something was found', () => {
  it('is its time over the sheet’s at one temperature, whatever the band around it', () => {
    // The published chart of `testing/published.ts`: gel in 52 min at 21 degrees, 62 at 16.
    expect(age({})).toBeCloseTo(1, 9);
    expect(age({ at: 65 })).toBeCloseTo(65 / 52, 9);
    expect(age({ at: 31, band: constantBand(16) })).toBeCloseTo(0.5, 9);
    expect(age({ at: 0 })).toBe(0);
  });

  it('is 1 at the minute that the clock expects, over a changing night', () => {
    const clock = cureClock(pipeCoating, 'gel', 'expected', certain(night));
    for (const laid of [0, 300, 700]) {
      const at = reachedAt(clock, laid);
      expect(at).not.toBeNull();
      const reached = age({ band: certain(night), laid, at: at ?? NaN });
      expect(Math.abs(reached - 1)).toBeLessThan(0.02);
    }
  });

  it('is the sheet’s: neither its spread nor a factor of the yard’s counts', () => {
    const gel = pipeCoating.milestones.gel;
    if (gel === undefined) throw new Error('the chart has gel times');
    expect(age({ material: withGel({ ...gel, factor: 1.4, spread: 1.3 }) })).toBeCloseTo(1, 9);
  });

  it('of a cup of another mass is later by the mass law', () => {
    const mass = { ...pipeCoating.mass, referenceGrams: figure(100, 'sheet', 'made up for tests') };
    const material = cureMaterialOf({
      milestones: {
        'pot-life': tableLaw([
          [10, 60],
          [20, 30],
        ]),
      },
      limits: limitsOf(5, 40),
      mass: { ...mass, massPower: figure(1 / 3, 'sheet', 'made up for tests') },
    });
    const cup = { material, milestone: 'pot-life', band: constantBand(20), at: 15 } as const;
    expect(age(cup)).toBeCloseTo(0.5, 9);
    // Eight times the mass gels in half the time: 15 of 15 minutes.
    expect(age({ ...cup, grams: 800 })).toBeCloseTo(1, 9);
  });

  it('of a film does not hang on how much was in the cup', () => {
    const { mass } = cureMaterialOf();
    const heavy = { ...mass, massPower: figure(1 / 3, 'sheet', 'made up for tests') };
    const material = { ...pipeCoating, mass: heavy };
    expect(age({ material, grams: 800 })).toBeCloseTo(1, 9);
  });

  it('of another percentage of hardener follows its effect, and is refused outside its range', () => {
    const exact = (value: number) => figure(value, 'sheet', 'made up for tests', 1);
    const hardener: Hardener = {
      kind: 'percent',
      usual: exact(2),
      used: 2,
      warn: [1, 2],
      block: [1, 2.5],
      effect: exact(1),
      source: 'made up for tests',
    };
    const material = { ...pipeCoating, hardener };
    expect(age({ material })).toBeCloseTo(1, 9);
    // Half the hardener, twice the time.
    expect(age({ material, hardenerPercent: 1, at: 104 })).toBeCloseTo(1, 9);
    expect(() => age({ material, hardenerPercent: 4 })).toThrow(/outside the 1 to 2.5 %/);
  });

  it('refuses a look before the laying, and a milestone that the sheet has no number for', () => {
    expect(() => age({ laid: 60, at: 52 })).toThrow(/before it was laid/);
    expect(() => age({ milestone: 'handle' })).toThrow(/no trustworthy number/);
  });
});

describe('of a conversion', () => {
  const law = (e2: number): CureLaw => ({
    kind: 'conversion',
    k1: { a: 4e5, e: 55_000 },
    k2: { a: 1e8, e: e2 },
    m: 0.9,
    n: 1.6,
    initial: 0,
    reached: 0.5,
    trust: 'sheet',
    source: 'made up for tests',
    spread: 1.2,
    factor: 1,
    overridden: false,
  });

  it.each([55_000, 62_000])(
    'with energies of 55000 and %d J/mol it is 1 when it is reached',
    (e2) => {
      const material = withGel(law(e2));
      const clock = cureClock(material, 'gel', 'expected', certain(night));
      const at = reachedAt(clock, 60);
      expect(at).not.toBeNull();
      if (at === null) return;
      const here = { material, band: certain(night), laid: 60 };
      expect(Math.abs(age({ ...here, at }) - 1)).toBeLessThan(0.01);
      expect(age({ ...here, at: 60 })).toBe(0);
      const later = age({ ...here, at: at + 60 });
      expect(later).toBeGreaterThan(1.005);
      const slower = withGel({ ...law(e2), factor: later });
      expect(reachedAt(cureClock(slower, 'gel', 'expected', certain(night)), 60)).toBe(at + 60);
    },
  );

  it('at one temperature it is the elapsed time over the predicted', () => {
    const material = withGel(law(62_000));
    const band = constantBand(18);
    const at = reachedAt(cureClock(material, 'gel', 'expected', band), 0) ?? NaN;
    expect(age({ material, band, at: 2 * at })).toBeCloseTo(2, 1);
    expect(age({ material, band, at: at / 2 })).toBeCloseTo(0.5, 2);
  });
});
