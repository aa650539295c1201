import type { Problem } from '#scheduling/model/problem.ts';
import { shopOf, windowsOf, type Shop } from './shop.ts';
import { list } from './text.ts';
import { HOPELESS, printed } from './answer.ts';

/** Pairs that can never run together: in all modes together they ask more of a resource than there is. */
function exclusive({ durations, demand, capacity }: Shop): [number, number][] {
  const least = demand.map((own) => own.map((modes) => Math.min(...modes)));
  const found: [number, number][] = [];
  for (let i = 0; i < durations.length; i += 1)
    for (let j = i + 1; j < durations.length; j += 1)
      if (
        Math.min(...durations[i]) > 0 &&
        Math.min(...durations[j]) > 0 &&
        capacity.some((units, r) => least[r][i] + least[r][j] > units)
      )
        found.push([i, j]);
  return found;
}

/** Whether all modes of all activities ask the same. */
const isPlain = ({ durations }: Shop): boolean => durations.every(({ length }) => length === 1);

function resources(shop: Shop): string[] {
  const { demand, capacity } = shop;
  return capacity.map((units, r) => {
    const asking = demand[r].flatMap((modes, i) => (modes.some((one) => one > 0) ? [i] : []));
    const of = (name: string): string => list(asking.map((i) => `${name}[${i + 1}]`));
    const amounts = asking.map((i) =>
      demand[r][i].length === 1 ? String(demand[r][i][0]) : `${list(demand[r][i])}[m[${i + 1}]]`,
    );
    return asking.length === 0
      ? ''
      : `constraint cumulative(${of('s')}, ${of('d')}, ${list(amounts)}, ${units});`;
  });
}

/**
 * Modes, constant lags, resources and stocks for a constraint solver: a global cumulative for each
 * resource, a disjunction for each pair that excludes one another (which learning solvers branch
 * on), windows from the longest paths.
 */
export function constraintModel(problem: Problem, horizon: number): string {
  const shop = shopOf(problem);
  const { durations, arcs, consumes, total } = shop;
  const n = durations.length;
  const windows = windowsOf(shop, horizon);
  if (windows === null) return HOPELESS;
  const { earliest, latest } = windows;
  const plain = isPlain(shop);
  const chosen = (values: readonly number[], i: number): string =>
    values.length === 1 || new Set(values).size === 1
      ? String(values[0])
      : `${list(values)}[m[${i + 1}]]`;
  return [
    'include "cumulative.mzn";',
    `array[1..${n}] of var 0..${horizon}: s;`,
    `array[1..${n}] of var int: m;`,
    ...durations.map((own, i) => `constraint m[${i + 1}] in 1..${own.length};`),
    plain
      ? `array[1..${n}] of int: d = ${list(durations.map(([own]) => own))};`
      : `array[1..${n}] of var int: d = ${list(durations.map(chosen))};`,
    ...earliest.map(
      (start, i) => `constraint s[${i + 1}] >= ${start} /\\ s[${i + 1}] <= ${latest[i]};`,
    ),
    `var 0..${horizon}: makespan;`,
    `constraint forall(i in 1..${n})(s[i] + d[i] <= makespan);`,
    ...arcs.map(
      ({ from, to, by }) => `constraint s[${to + 1}] >= s[${from + 1}] + (${chosen(by, from)});`,
    ),
    ...resources(shop),
    ...exclusive(shop).map(
      ([i, j]) =>
        `constraint s[${i + 1}] + d[${i + 1}] <= s[${j + 1}] \\/ s[${j + 1}] + d[${j + 1}] <= s[${i + 1}];`,
    ),
    ...total.map((units, k) => `constraint ${consumes[k].map(chosen).join(' + ')} <= ${units};`),
    plain
      ? 'solve :: int_search(s, smallest, indomain_min) minimize makespan;'
      : 'solve :: seq_search([int_search(s, smallest, indomain_min), int_search(m, first_fail, indomain_min)]) minimize makespan;',
    printed('s', 'm', '[]'),
  ].join('\n');
}
