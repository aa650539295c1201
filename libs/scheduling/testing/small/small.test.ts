import { describe, expect, it } from 'vitest';
import { validate } from '../../model/validate.ts';
import { range } from '../draw.ts';
import { allFeatures, features } from './features.ts';
import { smallProblem } from './small.ts';

const seeds = range(500).map((k) => k + 1);

describe('small problems of seeds 1 to 500', () => {
  const problems = seeds.map(smallProblem);
  const have = problems.map(features);

  it('have each feature on at least 80 times', () => {
    const counts = allFeatures.map((name) => ({
      feature: name,
      problems: have.filter((own) => own.has(name)).length,
    }));
    expect(counts.filter(({ problems: count }) => count < 80)).toEqual([]);
  });

  it('have many features on at once', () => {
    const sizes = have.map(({ size }) => size).sort((a, b) => a - b);
    expect(sizes[Math.floor(sizes.length / 10)]).toBeGreaterThanOrEqual(8);
  });

  it('are small and valid', () => {
    for (const problem of problems) {
      expect(problem.activities.length).toBeGreaterThanOrEqual(3);
      expect(problem.activities.length).toBeLessThanOrEqual(10);
      expect(problem.horizon).toBeLessThanOrEqual(60);
      expect(validate(problem)).toEqual([]);
    }
  });

  it('are the same for the same seed', () => {
    expect(smallProblem(17)).toEqual(problems[16]);
    expect(new Set(problems.map((one) => JSON.stringify(one))).size).toBe(seeds.length);
  });
});
