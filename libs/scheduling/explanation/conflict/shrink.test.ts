import { describe, expect, it } from 'vitest';
import { random as seeded } from '#kernel/random.ts';
import { shrink } from './shrink.ts';

describe('shrink', () => {
  it('finds a set that fails and of which no member can be left out', () => {
    for (let seed = 1; seed <= 200; seed += 1) {
      const random = seeded(seed);
      const items = Array.from({ length: 1 + random.below(40) }, (_, i) => i);
      const draw = (): Set<number> =>
        new Set(Array.from({ length: 1 + random.below(5) }, () => random.below(items.length)));
      const conflicts = Array.from({ length: 1 + random.below(3) }, draw);
      let asked = 0;
      const fails = (kept: readonly number[]): boolean => {
        asked += 1;
        const there = new Set(kept);
        return conflicts.some((conflict) => [...conflict].every((one) => there.has(one)));
      };
      const found = shrink(items, fails);
      expect(fails(found), `seed ${String(seed)}`).toBe(true);
      for (const one of found) expect(fails(found.filter((x) => x !== one))).toBe(false);
      // 2k + 2k log2(n / k) questions, Junker's bound, and a few for the check above.
      const k = found.length;
      expect(asked).toBeLessThanOrEqual(4 * k + 2 * k * Math.log2(items.length / k) + 3);
    }
  });

  it('keeps what fails together even where failures are missed', () => {
    const fails = (kept: readonly number[]): boolean => kept.length > 6 && kept.includes(3);
    expect(shrink([0, 1, 2, 3, 4, 5, 6, 7, 8], fails)).toContain(3);
    expect(shrink([1, 2, 3], () => false)).toEqual([1, 2, 3]);
    expect(shrink([1, 2, 3], () => true)).toEqual([]);
  });
});
