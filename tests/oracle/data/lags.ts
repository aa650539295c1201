import type { Problem } from '#scheduling/model/problem.ts';
import { rows } from '../dzn.ts';
import type { Functions } from './functions.ts';
import type { Data } from './tables.ts';

/** The data of model/lags.mzn but for the functions themselves. */
export function lags(problem: Problem, functions: Functions): Data {
  const place = problem.lags.map((_, l) => {
    for (const [c, { branches }] of problem.choices.entries())
      for (const [b, branch] of branches.entries())
        if (branch.lags.includes(l)) return [c + 1, b + 1];
    return [0, 0];
  });
  return {
    LAGS: problem.lags.length,
    LAG_FROM: problem.lags.map(({ from }) => from + 1),
    LAG_TO: problem.lags.map(({ to }) => to + 1),
    LAG_FROM_FINISH: problem.lags.map(({ fromAnchor }) => fromAnchor === 'finish'),
    LAG_TO_FINISH: problem.lags.map(({ toAnchor }) => toAnchor === 'finish'),
    LAG_CLOSES: problem.lags.map(({ bound }) => bound === 'close'),
    LAG_CHOICE: place.map(([c]) => c),
    LAG_BRANCH: place.map(([, b]) => b),
    LAG_FUNCTION: rows(
      problem.lags.flatMap(({ from, fns, bound }, l) =>
        functions.byMode(l + 1, from, fns, bound === 'close'),
      ),
      3,
    ),
  };
}
