import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan, RankValues } from '../model/plan.ts';
import { incumbent } from './incumbent.ts';

const planOf = (values: RankValues): Plan => ({
  placements: [],
  branches: [],
  finishes: [],
  values,
});

const offered = (tolerances: readonly number[], all: readonly RankValues[]) => {
  const best = incumbent(tolerances);
  for (const values of all) best.offer(values, () => planOf(values));
  return best;
};

/** The definition, over all plans at once. */
function best(tolerances: readonly number[], all: readonly RankValues[]): RankValues | undefined {
  let within = [...all];
  for (const rank of [0, 1, 2, 3]) {
    const least = Math.min(...within.map((values) => values[rank]));
    const cap = least + (tolerances[rank] ?? 0);
    within = within.filter((values) => values[rank] <= cap);
  }
  return within.sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2]).at(0);
}

describe('the best plan of the ranks in order', () => {
  it('gives up no more of a rank than its tolerance', () => {
    const plans: RankValues[] = [
      [0, 100, 50, 0],
      [0, 104, 10, 0],
      [0, 106, 0, 0],
    ];
    expect(offered([0, 0, 0], plans).plan?.values).toEqual([0, 100, 50, 0]);
    expect(offered([0, 5, 0], plans).plan?.values).toEqual([0, 104, 10, 0]);
    expect(offered([0, 6, 0], plans).plan?.values).toEqual([0, 106, 0, 0]);
  });

  it('falls back on an earlier plan when a better first rank tightens its cap', () => {
    const found = offered(
      [2, 0, 0],
      [
        [10, 50, 0, 0],
        [12, 40, 0, 0],
        [9, 60, 0, 0],
      ],
    );
    // With 9 found, 12 is past the cap of 11: the first plan is the best again.
    expect(found.plan?.values).toEqual([10, 50, 0, 0]);
    expect(found.least).toEqual([9, 50, 0, 0]);
  });

  it('knows the plans that set its caps where the best one does not', () => {
    const found = offered(
      [0, 6, 0],
      [
        [0, 39, 133, 0],
        [0, 42, 105, 0],
        [1, 0, 0, 0],
      ],
    );
    expect(found.plan?.values).toEqual([0, 42, 105, 0]);
    expect(found.leading.map(({ values }) => values)).toEqual([[0, 39, 133, 0]]);
    expect(offered([0, 0, 0], [[0, 39, 133, 0]]).leading).toEqual([]);
  });

  it('does not depend on the order in which plans are found', () => {
    const value = fc.integer({ min: 0, max: 4 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(value, value, value, value), { minLength: 1, maxLength: 30 }),
        fc.tuple(value, value, value),
        (plans, tolerances) => {
          expect(offered(tolerances, plans).plan?.values).toEqual(best(tolerances, plans));
          expect(offered(tolerances, plans.toReversed()).plan?.values).toEqual(
            best(tolerances, plans),
          );
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('keeps to its caps when it has found more plans than it keeps', () => {
    // None is at least as good as another; the last has the least second rank, the first is the best.
    const plans = Array.from({ length: 60 }, (_, i): RankValues => [i, 100 - i, i, 0]);
    const found = offered([100, 100, 0], plans);
    expect(found.least).toEqual([0, 41, 0, 0]);
    expect(found.plan?.values).toEqual([0, 100, 0, 0]);
    const past: RankValues = [0, 142, -1, 0];
    found.offer(past, () => planOf(past));
    expect(found.least).toEqual([0, 41, 0, 0]);
    expect(found.plan?.values).toEqual([0, 100, 0, 0]);
  });
});
