import { describe, expect, it } from 'vitest';
import { check } from '../../checker/check.ts';
import type { ViolationKind } from '../../checker/violation.ts';
import type { Constraint } from '../../model/constraint.ts';
import type { Problem } from '../../model/problem.ts';
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

interface Source {
  readonly name: string;
  readonly make: () => readonly Planted[];
  /** Mutants of each kind. */
  readonly count: number;
}

/** Plans to be broken, by where they come from: add a line for plans of another maker. */
const sources: readonly Source[] = [
  {
    name: 'planted plans',
    make: () => range(60).map((seed) => plantedProblem(seed, 4 + (seed % 21))),
    count: 250,
  },
  {
    name: 'planted plans on a short clock',
    make: () => range(60).map((seed) => plantedProblem(seed, 4 + (seed % 5), { day: 13, days: 4 })),
    count: 200,
  },
  {
    name: 'plans the engine makes of planted problems',
    make: () => {
      const plans = solved(range(24).map((seed) => plantedProblem(seed, 4 + (seed % 12)).problem));
      expect(plans.length).toBeGreaterThan(12);
      return plans;
    },
    count: 40,
  },
  {
    name: 'plans the engine makes of a made-up yard',
    make: () => {
      const plans = solved(range(2).map((seed) => madeUpYard(seed, 2)));
      expect(plans).toHaveLength(2);
      return plans;
    },
    count: 20,
  },
];

const kinds = Object.keys(mutations) as ViolationKind[];

/** The very record that was added to be broken, where it is the last of its list. */
const planted: Partial<Record<ViolationKind, (problem: Problem) => Constraint>> = {
  'lag-open': ({ lags }) => ({ kind: 'lag', lag: lags.length - 1 }),
  'lag-close': ({ lags }) => ({ kind: 'lag', lag: lags.length - 1 }),
  resource: ({ resources }) => ({ kind: 'resource', resource: resources.length - 1 }),
  hours: ({ resources }) => ({ kind: 'hours', resource: resources.length - 1 }),
  hold: ({ holds }) => ({ kind: 'hold', hold: holds.length - 1 }),
  stock: ({ stocks }) => ({ kind: 'stock', stock: stocks.length - 1 }),
  slot: ({ slotLists }) => ({ kind: 'slots', slotList: slotLists.length - 1 }),
  location: ({ parts }) => ({ kind: 'part', part: parts.length - 1 }),
  barrier: ({ barriers }) => ({ kind: 'barrier', barrier: barriers.length - 1 }),
};

describe.each(sources)('$name', { timeout: 60_000 }, ({ make, count }) => {
  const plans = make();

  it.each(kinds)('are accepted, and faults of kind %s in them all named', (kind) => {
    const found = mutants(kind, plans, count);
    expect(found).toHaveLength(count);
    for (const { before, after } of found) {
      expect(validate(before.problem)).toEqual([]);
      expect(check(before.problem, before.plan)).toEqual([]);
      const named = check(after.problem, after.plan).filter((one) => one.kind === kind);
      expect(named).not.toEqual([]);
      const constraint = planted[kind]?.(after.problem);
      if (constraint) expect(named.map((one) => one.constraint)).toContainEqual(constraint);
    }
  });
});
