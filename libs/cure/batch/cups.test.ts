import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { hundredths } from '../testing/arbitraries.ts';
import { cupsFor, type CupsInput } from './cups.ts';
import { potLifeOf } from './pot-life.ts';
import { mixOf, tableOf } from './testing/mixes.ts';

const input = (change: Partial<CupsInput> = {}): CupsInput => ({
  material: mixOf(),
  celsius: 20,
  mixGrams: 600,
  filmMm: null,
  spreadMinutes: 60,
  share: 0.5,
  ...change,
});

describe('cupsFor', () => {
  it('a worked case: 600 g in an hour at 20 °C', () => {
    /*
     * 10 g a minute. Four cups of 150 g: life 30 × 1.5^(-1/3) = 26.21 min, half of it 13.1;
     * one takes 15 min to spread: too long. Five of 120 g: life 28.23, half 14.1; 12 min: in time.
     */
    const cups = cupsFor(input());
    expect(cups.map(({ grams }) => grams)).toEqual([120, 120, 120, 120, 120]);
    expect(cups.map(({ mixAt }) => mixAt)).toEqual([0, 12, 24, 36, 48]);
    const life = 30 * 1.2 ** (-1 / 3);
    expect(cups[1].spreadBy).toBeCloseTo(12 + life / 2, 9);
    expect(cups[1].potLifeEnds).toBeCloseTo(12 + life, 9);
  });

  it('keeps to whole grams, and loses none', () => {
    const cups = cupsFor(input({ mixGrams: 601.4 }));
    expect(cups.map(({ grams }) => grams)).toEqual([121, 120, 120, 120, 120]);
  });

  it('is one cup where that is spread in time', () => {
    expect(cupsFor(input({ mixGrams: 100, spreadMinutes: 15 }))).toHaveLength(1);
    expect(cupsFor(input({ mixGrams: 100, spreadMinutes: 15.1 }))).toHaveLength(2);
  });

  it('is none where the pot life is not known or it may not be mixed', () => {
    expect(cupsFor(input({ celsius: 35 }))).toEqual([]);
    expect(cupsFor(input({ material: mixOf({ milestones: {} }) }))).toEqual([]);
  });

  it('refuses nonsense, and what gels as it is poured', () => {
    expect(() => cupsFor(input({ mixGrams: 0 }))).toThrow('0 g of mix');
    expect(() => cupsFor(input({ mixGrams: -1 }))).toThrow('-1 g of mix');
    expect(() => cupsFor(input({ spreadMinutes: 0 }))).toThrow('0 min');
    expect(() => cupsFor(input({ share: 0 }))).toThrow('a share of 0');
    expect(() => cupsFor(input({ share: 1.2 }))).toThrow('a share of 1.2');
    const row = { celsius: 20, minutes: 0.02 };
    const milestones = { 'pot-life': tableOf([row, { ...row, celsius: 30 }]) };
    const gone = input({ material: mixOf({ milestones }), mixGrams: 10, celsius: 20.123 });
    expect(() => cupsFor(gone)).toThrow(
      expect.objectContaining({
        code: 'cure.batch',
        message:
          'Resin gels faster than it can be spread at 20.1 °C: 10 g in 60 min is too slow even for 2 cups of 5 g',
      }),
    );
  });

  it('does not mix crumbs, nor more cups than anybody would', () => {
    // 6 g take 9 min of a life of 30, of which 0.3 may pass; in cups of 5 g (of 29 g) it is not quite in time.
    expect(cupsFor(input({ mixGrams: 6, spreadMinutes: 9, share: 0.3 }))).toHaveLength(1);
    expect(() => cupsFor(input({ mixGrams: 29, spreadMinutes: 60, share: 0.3 }))).toThrow(
      '5 cups of 6 g',
    );
    // 500 cups of 100 g last 30 min: 30 000 min by halves of that are 250 min each too long.
    const most = input({ mixGrams: 50_000, share: 0.5 });
    expect(cupsFor({ ...most, spreadMinutes: 7500 })).toHaveLength(500);
    expect(() => cupsFor({ ...most, spreadMinutes: 7501 })).toThrow('500 cups of 100 g');
  });

  it('is one cup where spreading takes next to no time, however short the life', () => {
    const row = { celsius: 20, minutes: 0.5 };
    const milestones = { 'pot-life': tableOf([row, { ...row, celsius: 30 }]) };
    const quick = input({ material: mixOf({ milestones }), spreadMinutes: 0.01 });
    const [cup, ...more] = cupsFor(quick);
    expect(more).toEqual([]);
    expect(cup).toMatchObject({ grams: 600, mixAt: 0 });
    expect(cup.potLifeEnds).toBeGreaterThan(cup.spreadBy);
  });

  const jobs = fc.record({
    mixGrams: fc.integer({ min: 5, max: 50_000 }),
    spreadMinutes: fc.integer({ min: 1, max: 480 }),
    celsius: hundredths(10, 30),
    share: hundredths(0.05, 1),
    filmMm: fc.option(fc.double({ min: 0.1, max: 100, noNaN: true })),
  });
  const open = mixOf({
    milestones: {
      ...mixOf().milestones,
      'open-time': tableOf([
        { celsius: 10, minutes: 300 },
        { celsius: 30, minutes: 80 },
      ]),
    },
  });
  // At worst a cup lasts 12 min here; what could not be spread within its share of that is refused.
  const able = jobs.filter(({ mixGrams, spreadMinutes, share }) => {
    const most = Math.min(500, Math.floor(mixGrams / 5));
    return (Math.ceil(mixGrams / most) / mixGrams) * spreadMinutes <= share * 12;
  });
  const countOf = (change: Partial<CupsInput>): number => cupsFor(input(change)).length;

  it('spreads each cup inside its share, in the fewest cups, and conserves the grams', () => {
    fc.assert(
      fc.property(able, fc.constantFrom(mixOf(), open), (job, material) => {
        const cups = cupsFor({ ...job, material });
        const grams = cups.map((cup) => cup.grams);
        expect(grams.reduce((sum, one) => sum + one, 0)).toBe(job.mixGrams);
        expect(Math.max(...grams) - Math.min(...grams)).toBeLessThanOrEqual(1);
        cups.forEach((cup, k) => {
          const spread = cups.at(k + 1)?.mixAt ?? job.spreadMinutes;
          expect(spread).toBeLessThanOrEqual(cup.spreadBy + 1e-9);
          expect(cup.potLifeEnds).toBeGreaterThanOrEqual(cup.spreadBy);
        });
        if (cups.length === 1) return;
        // One cup fewer would be too large.
        const larger = Math.ceil(job.mixGrams / (cups.length - 1));
        const life = potLifeOf(material, job.celsius, larger, job.filmMm) ?? 0;
        expect((larger / job.mixGrams) * job.spreadMinutes).toBeGreaterThan(job.share * life);
      }),
    );
  });

  it('warmer: not fewer; more hands: not more', () => {
    fc.assert(
      fc.property(able, hundredths(0, 10), (job, warmer) => {
        const few = countOf(job);
        expect(
          countOf({ ...job, celsius: Math.min(30, job.celsius + warmer) }),
        ).toBeGreaterThanOrEqual(few);
        expect(countOf({ ...job, spreadMinutes: job.spreadMinutes / 2 })).toBeLessThanOrEqual(few);
      }),
    );
  });
});
