import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { calibrate } from './calibrate.ts';
import type { Finding } from './observed.ts';
import { logBelow } from './normal.ts';
import { NOISE, SPREAD_Z } from './posterior.ts';

const finding = (found: Finding['found'], age: number, id = `${found}-${age}`): Finding => ({
  id,
  milestone: 'gel',
  found,
  age,
});

const now = (...ages: number[]): Finding[] =>
  ages.map((age, k) => finding('just-now', age, `g${k}`));

const flags = (spread: number, list: readonly Finding[]): (string | null)[] =>
  calibrate(spread, list).evidence.map(({ flag }) => flag);

describe('the normal distribution', () => {
  // Values of the standard normal distribution function, from memory of printed tables.
  it.each([
    [0, 0.5],
    [1, 0.8413447460685429],
    [-1, 0.15865525393145707],
    [1.6448536269514722, 0.95],
    [-3, 0.0013498980316300933],
    [-6, 9.865876450376946e-10],
    [4, 0.9999683287581669],
  ])('below %d lies %d', (z, share) => {
    expect(Math.abs(Math.exp(logBelow(z)) / share - 1)).toBeLessThan(1e-12);
  });

  it('has one density on either side of where its two forms meet', () => {
    for (const z of [-3, 3]) {
      expect(logBelow(z - 1e-9)).toBeLessThan(logBelow(z + 1e-9));
      expect(logBelow(z + 1e-9) - logBelow(z - 1e-9)).toBeLessThan(1e-8);
    }
    expect(logBelow(-40)).toBeCloseTo(-804.608442, 5);
  });
});

describe('findings of a moment', () => {
  it('move the factor as the normal prior with normal noise does in closed form', () => {
    const ages = [1.1, 1.25, 1.32];
    const sd = Math.log(1.5) / SPREAD_Z;
    const precision = 1 / sd ** 2 + ages.length / NOISE ** 2;
    const mean = ages.reduce((sum, age) => sum + Math.log(age), 0) / NOISE ** 2 / precision;
    const { factor, spread, evidence } = calibrate(1.5, now(...ages));
    expect(evidence.every(({ flag }) => flag === null)).toBe(true);
    expect(factor).toBeCloseTo(Math.exp(mean), 4);
    expect(spread).toBeCloseTo(Math.exp(SPREAD_Z / Math.sqrt(precision)), 4);
  });

  it('worked by hand: one gel at 1.3 of a sheet known to 1.1', () => {
    // Prior sd ln 1.1 / 1.645 = 0.05794, noise ln 1.25 / 1.645 = 0.13566: the finding weighs
    // 0.05794^2 / (0.05794^2 + 0.13566^2) = 0.15429 of ln 1.3 = 0.26236, so exp(0.04048) = 1.0413;
    // sd 0.05794 sqrt(1 - 0.15429) = 0.05329, so exp(1.645 * 0.05329) = 1.0916.
    const { factor, spread } = calibrate(1.1, now(1.3));
    expect(factor).toBeCloseTo(1.0413, 4);
    expect(spread).toBeCloseTo(1.0916, 4);
  });

  it('narrow the spread with their number, but never below what one yard’s films differ by', () => {
    const spreads = [1, 2, 4, 8, 16].map((n) => calibrate(1.5, now(...Array<number>(n).fill(1.2))));
    for (let k = 1; k < spreads.length; k++)
      expect(spreads[k].spread).toBeLessThan(spreads[k - 1].spread);
    expect(spreads[0].spread).toBeLessThan(1.5);
    expect(calibrate(1.5, now(...Array<number>(60).fill(1.2))).spread).toBe(1.05);
    expect(calibrate(1.02, now(1)).spread).toBeLessThanOrEqual(1.02);
  });
});

describe('findings of a side', () => {
  it('not yet moves the factor up, already down, and one that was certain not at all', () => {
    expect(calibrate(1.5, [finding('not-yet', 1.3)]).factor).toBeGreaterThan(1.1);
    expect(calibrate(1.5, [finding('already', 0.8)]).factor).toBeLessThan(0.92);
    expect(calibrate(1.5, [finding('already', 5)]).factor).toBeCloseTo(1, 4);
    expect(calibrate(1.5, [finding('not-yet', 0)]).factor).toBeCloseTo(1, 4);
  });

  it('agree with the integral of the posterior by plain summation', () => {
    const { factor } = calibrate(1.6, [finding('not-yet', 1.2), finding('just-now', 1.4)]);
    const sd = Math.log(1.6) / SPREAD_Z;
    const phi = (z: number) => Math.exp((-z * z) / 2);
    let below = 0;
    let all = 0;
    for (let x = -3; x < 3; x += 1e-4) {
      const side = Math.exp(logBelow((x - Math.log(1.2)) / NOISE));
      const weight = phi(x / sd) * phi((x - Math.log(1.4)) / NOISE) * side;
      all += weight;
      if (x <= Math.log(factor)) below += weight;
    }
    expect(below / all).toBeCloseTo(0.5, 3);
  });
});

describe('the spread', () => {
  it.each([
    ['not-yet', 1.5],
    ['already', 1 / 1.5],
  ] as const)('after %s at %f reaches the farther of the two ends', (found, age) => {
    const { factor, spread } = calibrate(1.6, [finding(found, age)]);
    const sd = Math.log(1.6) / SPREAD_Z;
    const sign = found === 'not-yet' ? 1 : -1;
    const steps = Array.from({ length: 60_001 }, (_, k) => -3 + k * 1e-4);
    const weights = steps.map((x) =>
      Math.exp(-((x / sd) ** 2) / 2 + logBelow((sign * (x - Math.log(age))) / NOISE)),
    );
    const all = weights.reduce((a, b) => a + b);
    const quantile = (share: number): number => {
      let sum = 0;
      return steps[weights.findIndex((weight) => (sum += weight) >= share * all)];
    };
    const ends = [quantile(0.95) - Math.log(factor), Math.log(factor) - quantile(0.05)];
    expect(Math.abs(ends[0] - ends[1])).toBeGreaterThan(0.02);
    expect(Math.log(spread)).toBeCloseTo(Math.max(...ends), 3);
  });
});

describe('what does not fit', () => {
  it('a planted outlier is flagged and changes nothing', () => {
    const good = now(1.05, 1.1, 1.15, 1.2);
    const planted = finding('just-now', 3.2, 'planted');
    const judged = calibrate(1.3, [...good, planted]);
    expect(judged.evidence.map(({ flag }) => flag)).toEqual([null, null, null, null, 'outlier']);
    expect(judged.factor).toBe(calibrate(1.3, good).factor);
    expect(judged.evidence[4].words).toMatch(/standard deviations later/);
  });

  it('of one side as well, and only on the side that can be wrong', () => {
    expect(flags(1.2, [...now(1, 1.05), finding('not-yet', 2.4)])).toEqual([null, null, 'outlier']);
    expect(flags(1.2, [...now(1, 1.05), finding('already', 0.4)])).toEqual([null, null, 'outlier']);
    expect(flags(1.2, [...now(1, 1.05), finding('not-yet', 0.4)])).toEqual([null, null, null]);
    expect(flags(1.2, [...now(1, 1.05), finding('already', 2.4)])).toEqual([null, null, null]);
  });

  it('two that contradict each other are both left out, and averaged in neither', () => {
    const pair = [finding('already', 0.75), finding('not-yet', 1.6)];
    const judged = calibrate(1.5, pair);
    expect(judged.evidence.map(({ flag }) => flag)).toEqual(['contradicts', 'contradicts']);
    expect([judged.factor, judged.spread]).toEqual([1, 1.5]);
    expect(judged.evidence[0].words).toContain('not-yet-1.6');
    expect(flags(1.5, now(0.75, 1.6))).toEqual(['contradicts', 'contradicts']);
    expect(flags(1.5, [finding('already', 0.95), finding('not-yet', 1.05)])).toEqual([null, null]);
  });

  it('looks at one film count once: twenty times “not yet” are one film, not twenty', () => {
    const looks = Array.from({ length: 20 }, (_, k) => ({
      ...finding('not-yet', 0.5 + 0.02 * k, `look-${k}`),
      film: 'shed/480',
    }));
    const judged = calibrate(1.3, looks);
    expect(judged.evidence.slice(0, 19).map(({ flag }) => flag)).toEqual(
      Array.from({ length: 19 }, () => 'implied'),
    );
    expect(judged.evidence[0].words).toContain('look-19');
    const last = calibrate(1.3, [finding('not-yet', 0.5 + 0.02 * 19)]);
    expect([judged.factor, judged.spread]).toEqual([last.factor, last.spread]);
    // The same looks at twenty films do say more.
    const films = looks.map((look, k) => ({ ...look, film: `shed/${k}` }));
    expect(calibrate(1.3, films).factor).toBeGreaterThan(judged.factor * 1.02);
  });

  it('the first “already” and the moment itself say all that later and earlier looks could', () => {
    const of = (list: readonly Finding[]): readonly (string | null)[] =>
      flags(
        1.3,
        list.map((one) => ({ ...one, film: 'f' })),
      );
    expect(of([finding('already', 1.1), finding('already', 1.4)])).toEqual([null, 'implied']);
    const around = [finding('not-yet', 0.9), ...now(1), finding('already', 1.2)];
    expect(of(around)).toEqual(['implied', null, 'implied']);
    expect(of([finding('not-yet', 0.9), finding('already', 1.2)])).toEqual([null, null]);
    expect(of([finding('not-yet', 0.9, 'a'), finding('not-yet', 0.9, 'b')])).toEqual([
      null,
      'implied',
    ]);
    // What it contradicts, it does not imply.
    expect(of([...now(1), finding('not-yet', 2.6)])).not.toContain('implied');
  });

  it('of a contradictory pair only the one that the others prove wrong', () => {
    const list = [...now(1.4, 1.45, 1.5), finding('already', 1.5), finding('already', 0.7, 'bad')];
    expect(flags(1.5, list)).toEqual([null, null, null, null, 'outlier']);
  });

  it('two camps of equal strength: nothing counts', () => {
    expect(new Set(flags(1.6, now(0.7, 0.72, 0.74, 1.5, 1.55, 1.6)))).toEqual(
      new Set(['contradicts']),
    );
  });

  it('an impossible finding, and a sheet that is called exact', () => {
    expect(flags(1.2, [finding('already', 0)])).toEqual(['outlier']);
    const { factor, spread } = calibrate(1, now(1.1));
    expect([factor, spread]).toEqual([1, 1]);
  });

  it('findings that agree with each other but not with the sheet say that it may be the sheet', () => {
    const blames = (list: readonly Finding[]): boolean[] =>
      calibrate(1.1, list).evidence.map(({ words }) => words.includes('check its line'));
    for (const age of [0.4, 2.5]) {
      const judged = calibrate(1.1, now(age, age, age));
      expect(judged.evidence.map(({ flag }) => flag)).toEqual(['outlier', 'outlier', 'outlier']);
      expect([judged.factor, judged.spread]).toEqual([1, 1.1]);
      expect(blames(now(age, age, age))).toEqual([true, true, true]);
      expect(blames(now(age))).toEqual([false]);
    }
    expect(blames(now(0.4, 2.5))).toEqual([false, false]);
    expect(blames([...now(1, 1), finding('just-now', 2.5)])).toEqual([false, false, false]);
    expect(blames(now(0, 0))).toEqual([false, false]);
  });

  it('numbers however small or large give a factor and a spread that can be used', () => {
    const ages = [5e-324, 1e-9, 0.4, 1, 2.5, 1e9, 1e300];
    for (const prior of [1, 1.05, 1.75, 3]) {
      for (const found of ['just-now', 'already', 'not-yet'] as const) {
        for (const age of ages) {
          const { factor, spread } = calibrate(prior, [finding(found, age), ...now(1)]);
          // One finding is at most outweighed: the factor stays between what the two say.
          expect(factor).toBeGreaterThan(0.3);
          expect(factor).toBeLessThan(3);
          expect(spread).toBeGreaterThanOrEqual(1);
          expect(spread).toBeLessThanOrEqual(prior * 1.001);
        }
      }
    }
  });

  it('findings that cannot be read are refused', () => {
    const two = [
      finding('just-now', 1),
      { ...finding('just-now', 1), milestone: 'cured' as const },
    ];
    expect(() => calibrate(1.2, two)).toThrow(/one milestone/);
    expect(() => calibrate(1.2, [])).toThrow(/one milestone/);
    expect(() => calibrate(0.9, now(1))).toThrow(/factor of 1 or more/);
    expect(() => calibrate(1.2, now(-1))).toThrow(/age of -1/);
    expect(() => calibrate(1.2, now(NaN))).toThrow(/age of NaN/);
  });
});

describe('whatever is found', () => {
  const between = (min: number, max: number) =>
    fc.array(
      fc.record({
        found: fc.constantFrom<Finding['found'][]>('just-now', 'already', 'not-yet'),
        age: fc.double({ min, max, noNaN: true }),
      }),
      { minLength: 1, maxLength: 5 },
    );
  const findings = between(0.2, 5);
  const alike = between(0.8, 1.2);
  const named = (list: readonly Pick<Finding, 'found' | 'age'>[]): Finding[] =>
    list.map(({ found, age }, k) => finding(found, age, `f${k}`));
  const spread = fc.double({ min: 1.01, max: 2, noNaN: true });

  it('the order in which it was reported decides nothing', () => {
    fc.assert(
      fc.property(
        spread,
        findings,
        fc.array(fc.nat(), { minLength: 5, maxLength: 5 }),
        (prior, list, keys) => {
          const inOrder = named(list);
          const mixed = inOrder
            .map((one, k) => ({ one, key: keys[k] }))
            .sort((a, b) => a.key - b.key)
            .map(({ one }) => one);
          const [a, b] = [calibrate(prior, inOrder), calibrate(prior, mixed)];
          expect([b.factor, b.spread]).toEqual([a.factor, a.spread]);
          const flagOf = new Map(b.evidence.map(({ finding: { id }, flag }) => [id, flag]));
          for (const {
            finding: { id },
            flag,
          } of a.evidence)
            expect(flagOf.get(id)).toBe(flag);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('a later gel never lowers the factor, nor does a later look, unless one of them is left out', () => {
    fc.assert(
      fc.property(
        spread,
        alike,
        fc.nat(),
        fc.double({ min: 1, max: 1.3, noNaN: true }),
        (prior, list, which, by) => {
          const early = named(list);
          const k = which % early.length;
          const late = early.map((one, j) => (j === k ? { ...one, age: one.age * by } : one));
          const [a, b] = [calibrate(prior, early), calibrate(prior, late)];
          fc.pre([...a.evidence, ...b.evidence].every(({ flag }) => flag === null));
          expect(b.factor).toBeGreaterThanOrEqual(a.factor * (1 - 1e-6));
        },
      ),
      { numRuns: 40 },
    );
  });
});
