import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import type { ViolationKind } from '../../checker/violation.ts';
import { validate } from '../../model/validate.ts';
import { range } from '../draw.ts';
import { plantedProblem, type Planted } from '../planted.ts';
import { mutants, mutations } from './mutants.ts';

const sources: readonly (readonly [string, readonly Planted[]])[] = [
  ['planted plans', range(100).map((seed) => plantedProblem(seed, 4 + (seed % 37)))],
  [
    'planted plans on a short clock',
    range(100).map((seed) => plantedProblem(seed, 4 + (seed % 5), { day: 13, days: 4 })),
  ],
];

const kinds = Object.keys(mutations) as ViolationKind[];

describe.each(sources)('%s', (_, plans) => {
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
