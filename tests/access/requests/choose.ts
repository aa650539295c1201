import { random } from '#kernel/random.ts';

/** Choices that follow from a seed alone. */
export interface Choose {
  /** Whole, both ends included. */
  between(least: number, most: number): number;
  chance(probability: number): boolean;
  of<T>(items: readonly T[]): T;
}

export function choose(seed: number): Choose {
  const source = random(seed);
  const between: Choose['between'] = (least, most) => least + source.below(most - least + 1);
  return {
    between,
    chance: (probability) => source.unit() < probability,
    of: (items) => {
      const item = items.at(between(0, items.length - 1));
      if (items.length === 0 || item === undefined) throw new TypeError('nothing to choose from');
      return item;
    },
  };
}
