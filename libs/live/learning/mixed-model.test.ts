import { describe, expect, it } from 'vitest';
import { random, type Random } from '#kernel/random.ts';
import { mixedModel, type Observation, type Priors } from './mixed-model.ts';

/** Box and Muller's way from uniform to normal numbers (1958). */
const normal = (from: Random): number =>
  Math.sqrt(-2 * Math.log(1 - from.unit())) * Math.cos(2 * Math.PI * from.unit());

/** All but nothing is expected beforehand, so that the data alone decide. */
const vague: Priors = {
  residual: { worth: 0.01, variance: 0.05 },
  factor: { worth: 0.01, variance: 0.05 },
};

/** As work is looked at: worth a few observations. */
const usual: Priors = {
  residual: { worth: 4, variance: 0.09 },
  factor: { worth: 2, variance: 0.04 },
};

const counts = [12, 8, 4];
const truth = { mean: 0.1, residual: 0.25 ** 2, between: [0.3 ** 2, 0.2 ** 2, 0.15 ** 2] };

/** Made-up work of which everything is known: three factors, the second shared by two of its levels. */
function made(seed: number, tasks: number) {
  const from = random(seed);
  const effects = counts.map((count, f) =>
    Array.from({ length: count }, () => Math.sqrt(truth.between[f]) * normal(from)),
  );
  const observations = Array.from({ length: tasks }, (): Observation => {
    const [step, space] = [from.below(counts[0]), from.below(counts[2])];
    const one = from.below(counts[1]);
    const other = (one + 1 + from.below(counts[1] - 1)) % counts[1];
    const share = from.below(3) === 0 ? 0.6 : 1;
    const levels = [
      { factor: 0, level: step, weight: 1 },
      { factor: 1, level: one, weight: share },
      ...(share < 1 ? [{ factor: 1, level: other, weight: 1 - share }] : []),
      { factor: 2, level: space, weight: 1 },
    ];
    const y = levels.reduce(
      (sum, { factor, level, weight }) => sum + weight * effects[factor][level],
      truth.mean + Math.sqrt(truth.residual) * normal(from),
    );
    return { y, levels };
  });
  return { effects, observations };
}

describe('the mixed model', () => {
  it('shrinks a balanced single factor as the formula says', () => {
    const from = random(5);
    const groups = Array.from({ length: 10 }, () => 0.3 * normal(from));
    const each = 6;
    const observations = groups.flatMap((effect, level) =>
      Array.from({ length: each }, () => ({
        y: effect + 0.3 * normal(from),
        levels: [{ factor: 0, level, weight: 1 }],
      })),
    );
    const fit = mixedModel(observations, [10], vague);
    const [between] = fit.between;
    const mean = (list: readonly Observation[]): number =>
      list.reduce((sum, { y }) => sum + y, 0) / list.length;
    const all = mean(observations);
    expect(fit.mean.mean).toBeCloseTo(all, 9);
    // Robinson 1991, 1: û = (τ² / (τ² + σ²/n)) (ȳ of the group − ȳ of all).
    const shrink = between / (between + fit.residual / each);
    expect(shrink).toBeLessThan(1);
    for (const [level] of groups.entries()) {
      const own = mean(observations.filter(({ levels }) => levels[0].level === level));
      expect(fit.effect(0, level).mean).toBeCloseTo(shrink * (own - all), 9);
    }
  });

  it('recovers what made-up work was made with, and says rightly how sure it is', () => {
    const seeds = Array.from({ length: 40 }, (_, seed) => seed + 1);
    const z80 = 1.2816;
    let [covered, levels, error, rawError] = [0, 0, 0, 0];
    const variances = [0, 0, 0, 0];
    for (const seed of seeds) {
      const { effects, observations } = made(seed, 150);
      const free = mixedModel(observations, counts, vague);
      [free.residual, ...free.between].forEach((value, k) => {
        variances[k] += value / seeds.length;
      });
      const fit = mixedModel(observations, counts, usual);
      const mean = observations.reduce((sum, { y }) => sum + y, 0) / observations.length;
      effects.forEach((list, factor) => {
        const common = list.reduce((sum, effect) => sum + effect, 0) / list.length;
        list.forEach((whole, level) => {
          const effect = whole - common;
          const own = observations.filter((one) =>
            one.levels.some((at) => at.factor === factor && at.level === level && at.weight > 0.5),
          );
          if (own.length === 0) return;
          const { mean: found, sd } = fit.effect(factor, level);
          const raw = own.reduce((sum, { y }) => sum + y - mean, 0) / own.length;
          levels += 1;
          if (Math.abs(found - effect) <= z80 * sd) covered += 1;
          error += (found - effect) ** 2;
          rawError += (raw - effect) ** 2;
        });
      });
    }
    expect(levels).toBeGreaterThan(900);
    expect(covered / levels).toBeGreaterThan(0.76);
    expect(covered / levels).toBeLessThan(0.84);
    // Plain means by level mistake the others' effects for their own.
    expect(error / rawError).toBeLessThan(0.6);
    expect(variances[0]).toBeCloseTo(truth.residual, 2);
    truth.between.forEach((value, f) => {
      expect(variances[f + 1] / value).toBeGreaterThan(0.7);
      expect(variances[f + 1] / value).toBeLessThan(1.35);
    });
  });

  it('takes one observation, and draws it to what was expected', () => {
    const levels = [{ factor: 0, level: 0, weight: 1 }];
    const fit = mixedModel([{ y: 0.5, levels }], [1], usual);
    expect(fit.withMean(0, 0).mean).toBeCloseTo(0.5, 6);
    expect(fit.withMean(0, 0).sd).toBeGreaterThan(0.25);
    // There is nobody to compare with.
    expect(fit.effect(0, 0).mean).toBeCloseTo(0, 9);
  });
});
