import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { dataOf } from '../../../oracle/data/data.ts';
import { beyond } from '../../../oracle/data/ranks.ts';
import { modelTexts } from '../../../oracle/oracle.ts';
import { finishesOf, placementsOf, readSolution } from '../../../oracle/plan.ts';
import { waysOf } from '../../../oracle/ways/ways.ts';
import { worthOf } from '../worth.ts';
import type { PeerModel } from './answer.ts';
import { narrowed } from './narrow.ts';

/**
 * No better plan than this one ends later: where it breaks no promise, a refit that finishes
 * later makes the second rank worse by more than all others could save.
 */
function lastMinute(problem: Problem, first: Plan | null): number {
  const { horizon, refits, activities } = problem;
  if (first === null || first.values[0] > 0) return horizon;
  if (activities.some(({ refit }) => refit === null)) return horizon;
  const latest = refits.map(({ weight }) =>
    weight === 0 ? horizon : Math.floor(first.values[1] / weight),
  );
  const after = Math.max(...activities.flatMap(({ modes }) => modes.map((mode) => mode.cleanDown)));
  return Math.min(horizon, Math.max(...latest) + after);
}

/** The oracle's model with our first plan as horizon and as a limit of the ranks. */
export function refitModel(problem: Problem, first: Plan | null): PeerModel {
  const cut: Problem = { ...problem, horizon: lastMinute(problem, first) };
  const caps = first === null ? [] : first.values.slice(0, first.values[0] > 0 ? 1 : 2);
  const most = first === null || first.values[0] > 0 ? Infinity : first.values[1];
  const ways = narrowed(cut, waysOf(cut), most);
  const data = dataOf(cut, ways, { factors: [beyond(problem), 1], caps });
  return {
    texts: { ...modelTexts, 'data.dzn': data },
    value: (output) => worthOf(problem, readSolution(output).worth),
    plan(output) {
      const solution = readSolution(output);
      const placements = placementsOf(ways, solution);
      const branches = solution.branches.map((branch) => branch - 1);
      return { placements, branches, finishes: finishesOf(problem, placements) };
    },
  };
}
