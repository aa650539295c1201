import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { oneBatch, type OneBatchInput } from './one-batch.ts';
import { hundredths } from '../testing/arbitraries.ts';
import { potLifeOf } from './pot-life.ts';
import { exactly, mixOf, percentOf } from './testing/mixes.ts';

/** 800 g: 15 min at 20 °C, 30 at 10 °C (see `mixOf`); 40 builder-minutes to spread it. */
const input = (change: Partial<OneBatchInput> = {}): OneBatchInput => ({
  material: mixOf({ hardener: percentOf(2, 1) }),
  celsius: 20,
  mixGrams: 800,
  filmMm: null,
  hands: [1, 2],
  spreadMinutes: (hands) => Math.ceil(40 / hands),
  ...change,
});

describe('oneBatch', () => {
  it('has nothing to say where some crew of the step spreads it in time', () => {
    expect(oneBatch(input({ hands: [1, 2, 3] }))).toBeNull(); // 14 of 15 min
    expect(oneBatch(input({ celsius: 10, hands: [2] }))).toBeNull(); // 20 of 30 min
  });

  it('finds the crew, the temperature and the hardener that would do', () => {
    const found = oneBatch(input());
    // Two need 20 min: three do in 14. Lives: 15 × 2^((20 - T)/10), near enough, is 20 at 15.8 °C.
    expect(found).toMatchObject({ hands: 3, celsius: 15.5, percent: 1.5 });
    // 15 × (p/2)^-1 is 20 at 1.5 %.
    expect(found?.words).toBe(
      '800 g of Resin in one batch has to be spread within 15 min at 20 °C, and 2 pairs of hands take 20 min: ' +
        'it would do with 3 pairs of hands, or at 15.5 °C, or with 1.5 % hardener',
    );
  });

  it('each way does, and the next worse does not', () => {
    const { hands, celsius, percent } = oneBatch(input()) ?? {};
    expect(oneBatch(input({ hands: [hands ?? 0] }))).toBeNull();
    expect(oneBatch(input({ hands: [(hands ?? 0) - 1] }))).not.toBeNull();
    expect(oneBatch(input({ celsius: celsius ?? NaN }))).toBeNull();
    expect(oneBatch(input({ celsius: (celsius ?? NaN) + 0.5 }))).not.toBeNull();
    const mixed = (used: number) => mixOf({ hardener: percentOf(used, 1) });
    expect(oneBatch(input({ material: mixed(percent ?? NaN) }))).toBeNull();
    expect(oneBatch(input({ material: mixed((percent ?? NaN) + 0.05) }))).not.toBeNull();
  });

  it('of any job: each way that it names does when it is applied, and no better one was passed over', () => {
    const jobs = fc.record({
      celsius: hundredths(5, 35),
      mixGrams: fc.integer({ min: 20, max: 5000 }),
      filmMm: fc.option(hundredths(1, 120)),
      share: hundredths(0.3, 1),
      work: fc.integer({ min: 5, max: 200 }),
      used: hundredths(1, 2.5),
      spread: hundredths(1, 1.5),
    });
    const seen = new Set<string>();
    fc.assert(
      fc.property(jobs, ({ work, used, spread, ...job }) => {
        const mixed = (percent: number) =>
          mixOf({ hardener: { ...percentOf(percent, 1), effect: { ...exactly(0.8), spread } } });
        const asked = input({
          ...job,
          material: mixed(used),
          spreadMinutes: (hands) => Math.ceil(work / hands),
        });
        const found = oneBatch(asked);
        const does = (change: Partial<OneBatchInput>): boolean =>
          oneBatch({ ...asked, ...change }) === null;
        if (found === null) return;
        const { hands, celsius, percent } = found;
        for (const [way, value] of Object.entries({ hands, celsius, percent }))
          seen.add(`${way} ${value === null ? 'would not do' : 'does'}`);
        if (hands !== null) {
          expect([does({ hands: [hands] }), does({ hands: [hands - 1] })]).toEqual([true, false]);
        } else expect(does({ hands: [20] })).toBe(false);
        if (celsius === null) expect(does({ celsius: 10 })).toBe(false);
        else {
          expect(does({ celsius })).toBe(true);
          const next = celsius + 0.5;
          if (next < job.celsius) expect(does({ celsius: next })).toBe(false);
        }
        if (percent === null) expect(does({ material: mixed(1) })).toBe(false);
        else {
          expect([percent < used, does({ material: mixed(percent) })]).toEqual([true, true]);
          if (percent + 0.05 < used) expect(does({ material: mixed(percent + 0.05) })).toBe(false);
        }
      }),
      { numRuns: 150 },
    );
    expect(seen.size).toBe(6);
  });

  it('of resin too cold to be mixed says how warm it must be, not to cool it', () => {
    const cold = oneBatch(input({ celsius: 6 }));
    expect(cold).toMatchObject({ hands: null, celsius: 10, percent: null });
    expect(cold?.words).toContain('may not be mixed at 6 °C');
    expect(cold?.words).toContain('it would do at 10 °C');
    const hopeless = oneBatch(input({ celsius: 6, spreadMinutes: () => 40 }));
    expect(hopeless).toMatchObject({ celsius: null });
    expect(hopeless?.words).toContain('nor warming nor');
  });

  it('says null for what would not help', () => {
    // No effect of the hardener is known; 500 min of work, of which no crew does less than 40.
    const hopeless = oneBatch(
      input({ material: mixOf(), spreadMinutes: (hands) => Math.max(40, 500 / hands) }),
    );
    expect(hopeless).toMatchObject({ hands: null, celsius: null, percent: null });
    expect(hopeless?.words).toContain('lay it in laps');
  });

  it('is too warm to be mixed at all: cooling is the way', () => {
    const hot = oneBatch(input({ celsius: 33, material: mixOf(), hands: [10] }));
    expect(hot?.words).toContain('may not be mixed at 33 °C');
    expect(hot).toMatchObject({ hands: null, percent: null });
    expect(potLifeOf(mixOf(), hot?.celsius ?? NaN, 800, null)).toBeGreaterThanOrEqual(4);
  });

  it('asks for the pot life where the sheet has none', () => {
    const missing = [{ milestone: 'pot-life', line: 'pot life, 100 g' } as const];
    expect(() => oneBatch(input({ material: mixOf({ milestones: {}, missing }) }))).toThrow(
      'no trustworthy number is known for “pot-life”',
    );
  });
});
