import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import { range } from './draw.ts';
import { plantedProblem, tinyProblem, type Planted } from './planted.ts';

const large = (seed: number): Planted => plantedProblem(seed, 4 + (seed % 37));

describe('planted problems', { timeout: 60_000 }, () => {
  it('come with a plan that the checker accepts', () => {
    for (const seed of range(200)) {
      const { problem, plan } = large(seed);
      expect(check(problem, plan), `seed ${seed}`).toEqual([]);
    }
  });

  it('do so when they are tiny', () => {
    for (const seed of range(400)) {
      const { problem, plan } = tinyProblem(seed, 2 + (seed % 5));
      expect(check(problem, plan), `seed ${seed}`).toEqual([]);
    }
  });

  it('are the same for the same seed, and plain JSON', () => {
    for (const seed of range(10)) {
      expect(large(seed)).toEqual(large(seed));
      expect(JSON.parse(JSON.stringify(large(seed)))).toEqual(large(seed));
    }
    expect(large(1)).not.toEqual(plantedProblem(2, 5));
  });

  it('have something of everything', () => {
    const all = range(60).map(large);
    const placed = all.flatMap(({ problem, plan }) =>
      plan.placements.map((placement) => ({
        placement,
        activity: problem.activities[placement.activity],
        mode: problem.activities[placement.activity].modes[placement.mode],
      })),
    );
    const share = (test: (one: (typeof placed)[number]) => boolean): number =>
      placed.filter(test).length / placed.length;
    const count = (of: (one: Planted) => number): number =>
      all.reduce((sum, one) => sum + Math.min(1, of(one)), 0);
    expect(share(({ placement }) => placement.segments.length > 1)).toBeGreaterThan(0.1);
    expect(share(({ placement }) => placement.crew.length > 1)).toBeGreaterThan(0.1);
    expect(share(({ mode }) => mode.air === 'wet')).toBeGreaterThan(0.2);
    expect(share(({ mode }) => mode.air === 'dusty')).toBeGreaterThan(0.15);
    expect(share(({ mode }) => mode.crew.length === 0)).toBeLessThan(0.25);
    expect(share(({ activity }) => activity.fixed?.kind === 'frozen')).toBeGreaterThan(0.01);
    expect(share(({ activity }) => activity.fixed?.kind === 'set')).toBeGreaterThan(0.05);
    expect(share(({ activity }) => activity.release > 0)).toBeGreaterThan(0.2);
    expect(share(({ activity }) => activity.modes.length > 1)).toBeGreaterThan(0.2);
    expect(count(({ problem }) => problem.choices.length)).toBeGreaterThan(30);
    expect(count(({ problem }) => problem.surfaces.length)).toBeGreaterThan(40);
    expect(count(({ problem }) => problem.tables.length)).toBeGreaterThan(45);
    expect(count(({ plan }) => plan.values[0])).toBeGreaterThan(12);
  });

  it(
    'are checked in less than 200 ms with a thousand activities in five weeks',
    { timeout: 60_000 },
    () => {
      const { problem, plan } = plantedProblem(1, 1000, { day: 1440, days: 35 });
      const times = range(5).map(() => {
        const start = performance.now();
        expect(check(problem, plan)).toEqual([]);
        return performance.now() - start;
      });
      expect(Math.min(...times)).toBeLessThan(200);
    },
  );
});
