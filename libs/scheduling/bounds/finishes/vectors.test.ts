import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { vectorSearch, type Refusal } from './vectors.ts';

const HORIZON = 40;

describe('the search over vectors of finishes', () => {
  it('finds the least cost that is not refuted, as trying all finds it', () => {
    const vector = fc.array(fc.integer({ min: 0, max: HORIZON }), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(
        fc.array(vector, { minLength: 1, maxLength: 5 }),
        vector,
        fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 3, maxLength: 3 }),
        (plans, heads, weights) => {
          const least = heads.map((head, r) => Math.min(head, ...plans.map((plan) => plan[r])));
          // Caps are refuted where none of the plans keeps them: complete, as no relaxation is.
          const refute = (caps: readonly number[]): boolean =>
            plans.every((plan) => plan.some((finish, r) => finish > caps[r]));
          const refusals: Refusal[] = [];
          const cost = (r: number, finish: number): number => weights[r] * finish;
          const search = vectorSearch(least, HORIZON, cost, refute, refusals);
          for (let k = 0; k < 20_000 && !search.done; k += 1) search.step();
          expect(search.done).toBe(true);
          const costs = plans.map((plan) => plan.reduce((sum, f, r) => sum + cost(r, f), 0));
          expect(search.bound).toBe(Math.min(...costs));
          for (const { refits, caps } of refusals)
            for (const plan of plans) expect(refits.some((r) => plan[r] > caps[r])).toBe(true);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('is out of vectors where all are refuted, and keeps its bound where nothing is', () => {
    const cost = (_: number, finish: number): number => finish;
    const never = vectorSearch([1, 2], 10, cost, () => true, []);
    for (let k = 0; k < 1000 && !never.done; k += 1) never.step();
    expect([never.done, never.bound, never.open]).toEqual([true, Infinity, null]);
    const always = vectorSearch([1, 2], 10, cost, () => false, []);
    always.step();
    expect([always.done, always.bound, always.open]).toEqual([true, 3, [1, 2]]);
  });
});
