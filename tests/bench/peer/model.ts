import type { Problem } from '#scheduling/model/problem.ts';
import { toPureModel } from '#scheduling/search/exact/pure.ts';

/** A pure problem as a plain MiniZinc model: difference constraints, one cumulative a resource. */
export function minizincModel(problem: Problem): string {
  const model = toPureModel(problem);
  const list = (numbers: Iterable<number>): string => `[${[...numbers].join(', ')}]`;
  const lags = model.lags.map(
    (l) => `constraint s[${l.to + 1}] >= s[${l.from + 1}] + (${l.weight});`,
  );
  const cumulatives = model.demand.map(
    (demand, r) => `constraint cumulative(s, d, ${list(demand)}, ${model.capacity[r]});`,
  );
  return [
    'include "cumulative.mzn";',
    `array[1..${model.count}] of int: d = ${list(model.duration)};`,
    `array[1..${model.count}] of var 0..${model.horizon}: s;`,
    `var 0..${model.horizon}: makespan;`,
    'constraint forall(i in index_set(d))(s[i] + d[i] <= makespan);',
    ...lags,
    ...cumulatives,
    'solve :: int_search(s, smallest, indomain_min) minimize makespan;',
    'output [show(makespan)];',
  ].join('\n');
}
