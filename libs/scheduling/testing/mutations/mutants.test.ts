import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import type { ViolationKind } from '../../checker/violation.ts';
import { validate } from '../../model/validate.ts';
import { range } from '../draw.ts';
import { plantedProblem, type Planted } from '../planted.ts';
import { mutants, mutations } from './mutants.ts';

/** Plans to be broken, by where they come from: add a line for plans of another maker. */
const sources: readonly (readonly [string, () => readonly Planted[]])[] = [
  ['planted plans', () => range(60).map((seed) => plantedProblem(seed, 4 + (seed % 37)))],
  [
    'planted plans on a short clock',
    () => range(60).map((seed) => plantedProblem(seed, 4 + (seed % 5), { day: 13, days: 4 })),
  ],
];

const kinds = Object.keys(mutations) as ViolationKind[];

describe.each(sources)('%s', { timeout: 60_000 }, (_, make) => {
  const plans = make();

  it.each(kinds)('100 faults of kind %s are all named', (kind) => {
    const found = mutants(kind, plans, 100);
    expect(found).toHaveLength(100);
    for (const { before, after } of found) {
      expect(validate(before.problem)).toEqual([]);
      expect(check(before.problem, before.plan)).toEqual([]);
      const named = check(after.problem, after.plan).map((violation) => violation.kind);
      expect(named).toContain(kind);
    }
  });
});
