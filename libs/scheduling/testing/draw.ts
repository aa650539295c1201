import type { Random } from '#kernel/random.ts';

/** Uniform integer from `low` to `high`, both included. */
export const between = (rng: Random, low: number, high: number): number =>
  low + rng.below(Math.max(1, high - low + 1));

export const chance = (rng: Random, probability: number): boolean => rng.unit() < probability;

/** One of a list that is not empty. */
export const pick = <T>(rng: Random, items: readonly T[]): T => items[rng.below(items.length)];

export function shuffled<T>(rng: Random, items: readonly T[]): T[] {
  const result = [...items];
  for (let i = result.length - 1; i > 0; i--) {
    const j = rng.below(i + 1);
    [result[i], result[j]] = [result[j], result[i]];
  }
  return result;
}

/** `count` different items, fewer where there are not so many. */
export const sample = <T>(rng: Random, items: readonly T[], count: number): T[] =>
  shuffled(rng, items).slice(0, Math.max(0, count));

export const range = (count: number): number[] => Array.from({ length: count }, (_, i) => i);
