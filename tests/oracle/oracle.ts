import { readFileSync } from 'node:fs';
import type { Problem } from '#scheduling/model/problem.ts';
import { solveModel, type Limits } from '../support/minizinc/solve.ts';
import { dataOf, type Stage } from './data/data.ts';
import { beyond } from './data/ranks.ts';
import { finishesOf, placementsOf, readSolution, type OraclePlan, type Solution } from './plan.ts';
import { waysOf, type Way } from './ways/ways.ts';

/** The least values of the first two ranks, each with the earlier one at its least plus its tolerance. */
export type Verdict =
  | {
      readonly kind: 'optimal';
      readonly least: readonly [number, number];
      readonly plan: OraclePlan;
    }
  | { readonly kind: 'infeasible' }
  /** Not decided within the limit. */
  | { readonly kind: 'open' };

const folder = new URL('./model/', import.meta.url);
const parts = ['problem', 'work', 'lags', 'supply', 'places', 'ranks'].map((part) => `${part}.mzn`);
export const modelTexts = Object.fromEntries(
  parts.map((name) => [name, readFileSync(new URL(name, folder), 'utf8')]),
);

async function least(
  problem: Problem,
  ways: readonly Way[],
  stage: Stage,
  limits: Limits,
): Promise<Solution | 'infeasible' | 'open'> {
  const { status, output } = await solveModel(
    { ...modelTexts, 'data.dzn': dataOf(problem, ways, stage) },
    limits,
  );
  if (status === 'UNSATISFIABLE') return 'infeasible';
  if (status !== 'OPTIMAL_SOLUTION' || output === null) return 'open';
  return readSolution(output);
}

/** Decides the problem by a general solver on the same minutes; a fresh process for each stage. */
export async function oracle(problem: Problem, limits: Limits): Promise<Verdict> {
  const ways = waysOf(problem);
  const together = problem.tolerances[0] === 0;
  const stages: Stage[] = together
    ? [{ factors: [beyond(problem), 1], caps: [] }]
    : [{ factors: [1, 0], caps: [] }];
  const first = await least(problem, ways, stages[0], limits);
  if (first === 'infeasible' || first === 'open') return { kind: first };
  const cap = first.worth[0] + problem.tolerances[0];
  const second = together
    ? first
    : await least(problem, ways, { factors: [0, 1], caps: [cap] }, limits);
  if (second === 'infeasible') throw new Error('the second stage loses the plan of the first');
  if (second === 'open') return { kind: 'open' };
  const placements = placementsOf(ways, second);
  return {
    kind: 'optimal',
    least: [first.worth[0], second.worth[1]],
    plan: {
      placements,
      branches: second.branches.map((b) => b - 1),
      finishes: finishesOf(problem, placements),
    },
  };
}
