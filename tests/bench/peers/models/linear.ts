import type { Problem } from '#scheduling/model/problem.ts';
import { shopOf, windowsOf } from './shop.ts';
import { HOPELESS, printed } from './answer.ts';
import { list, table } from './text.ts';

/**
 * Modes, constant lags, resources and stocks for a solver of linear programmes in integers, by
 * steps: z[k, t] = 1 where mode k has begun by period t. Lags are one row a period, which makes
 * the relaxation tight (N. Christofides, R. Alvarez-Valdes, J. M. Tamarit, EJOR 29 (1987)
 * 262-273, for single modes and starts; cited from memory). The last row of z is the end of all.
 */
export function linearModel(problem: Problem, horizon: number): string {
  const shop = shopOf(problem);
  const { durations, arcs, demand, capacity, consumes, total } = shop;
  const windows = windowsOf(shop, horizon);
  if (windows === null) return HOPELESS;
  const n = durations.length;
  const { earliest, latest } = windows;
  const end = Math.max(...durations.map((own, i) => earliest[i] + Math.min(...own)));
  const starts = [...earliest, end];
  const ends = [...latest, horizon];
  const modes = [...durations, [0]].flatMap((own, activity) =>
    own.map((duration, mode) => ({ activity, mode, duration })),
  );
  const rows = modes.map((_, k) => k + 1);
  const of = (activity: number): number[] => rows.filter((k) => modes[k - 1].activity === activity);
  const all = [...arcs, ...durations.map((own, from) => ({ from, to: n, by: own }))];
  // One row for each mode of each arc: what begins and by how much later.
  const arcRows = all.flatMap(({ from, to, by }, a) =>
    of(from).map((k, m) => [a + 1, k, by[m], to + 1]),
  );
  const groups = Array.from({ length: n + 1 }, (_, i) => of(i));
  const byMode = (amounts: readonly (readonly (readonly number[])[])[]): number[][] =>
    amounts.map((own) => modes.map(({ activity, mode }) => own.at(activity)?.[mode] ?? 0));
  return [
    `int: H = ${horizon};`,
    `int: K = ${modes.length};`,
    `array[1..K] of int: D = ${list(modes.map(({ duration }) => duration))};`,
    `array[1..K] of int: FIRST = ${list(modes.map(({ activity }) => starts[activity]))};`,
    `array[1..K] of int: LAST = ${list(modes.map(({ activity }) => ends[activity]))};`,
    `array[1..${n + 1}] of set of int: OF = ${list(groups.map((own) => `${own[0]}..${own[own.length - 1]}`))};`,
    `array[1..${n + 1}] of int: LATEST = ${list(ends)};`,
    `array[1..${arcRows.length}, 1..4] of int: ARC = ${table(arcRows)};`,
    'array[1..K, 0..H] of var 0..1: z;',
    'constraint forall(k in 1..K, t in 0..H where t < FIRST[k])(z[k, t] = 0);',
    'constraint forall(k in 1..K, t in 1..H where t > FIRST[k])(z[k, t - 1] <= z[k, t]);',
    'constraint forall(i in index_set(OF), t in LATEST[i]..H)(sum(k in OF[i])(z[k, t]) = 1);',
    'function var int: at(int: k, int: t) = if t < 0 then 0 elseif t > H then z[k, H] else z[k, t] endif;',
    `constraint forall(a in 1..${all.length}, t in 0..H)(`,
    '  let { array[int] of int: own = [r | r in index_set_1of2(ARC) where ARC[r, 1] = a]; } in',
    '  sum(k in OF[ARC[own[1], 4]])(z[k, t]) <= sum(r in own)(at(ARC[r, 2], t - ARC[r, 3]))',
    ');',
    ...byMode(demand).map(
      (amounts, r) =>
        `constraint let { array[1..K] of int: a = ${list(amounts)}; } in forall(t in 0..H)(sum(k in 1..K where a[k] > 0 /\\ D[k] > 0)(a[k] * (z[k, t] - at(k, t - D[k]))) <= ${capacity[r]});`,
    ),
    ...byMode(consumes).map(
      (amounts, k) =>
        `constraint let { array[1..K] of int: a = ${list(amounts)}; } in sum(k in 1..K where a[k] > 0)(a[k] * z[k, H]) <= ${total[k]};`,
    ),
    'var int: makespan = sum(t in 0..H)(1 - z[K, t]);',
    'solve minimize makespan;',
    printed(
      `[sum(t in 0..H)(1 - sum(k in OF[i])(z[k, t])) | i in 1..${n}]`,
      `[sum(k in OF[i])((k - min(OF[i]) + 1) * z[k, H]) | i in 1..${n}]`,
      '[]',
    ),
  ].join('\n');
}
