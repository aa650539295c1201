import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import type { ViolationKind } from '../../checker/violation.ts';
import { validate } from '../../model/validate.ts';
import { solve } from '../../solve.ts';
import { range } from '../draw.ts';
import { madeUpYard } from '../made-up-yard.ts';
import { plantedProblem, type Planted } from '../planted.ts';
import { mutants, mutations } from './mutants.ts';

/** The engine's own plan of each problem; a problem it finds none for in so little time gives none. */
const solved = (problems: readonly Planted['problem'][]): Planted[] =>
  problems.flatMap((problem) => {
    const { plan } = solve(problem, { seed: 1, iterations: 30 });
    return plan === null ? [] : [{ problem, plan }];
  });

/** Plans to be broken, by where they come from: add a line for plans of another maker. */
const sources: readonly (readonly [string, () => readonly Planted[]])[] = [
  ['planted plans', () => range(60).map((seed) => plantedProblem(seed, 4 + (seed % 37)))],
  [
    'planted plans on a short clock',
    () => range(60).map((seed) => plantedProblem(seed, 4 + (seed % 5), { day: 13, days: 4 })),
  ],
  [
    'plans the engine makes of planted problems',
    () => {
      const plans = solved(range(40).map((seed) => plantedProblem(seed, 4 + (seed % 37)).problem));
      expect(plans.length).toBeGreaterThan(20);
      return plans;
    },
  ],
  [
    'plans the engine makes of a made-up yard',
    () => {
      const plans = solved(range(3).map((seed) => madeUpYard(seed, 4)));
      expect(plans).toHaveLength(3);
      return plans;
    },
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
