import type { Problem } from '#scheduling/model/problem.ts';
import { shopOf, windowsOf } from './shop.ts';
import { HOPELESS, printed } from './answer.ts';
import { list, table } from './text.ts';

/** Whether one activity is always over before the other begins, by arcs alone. */
function ordered(count: number, arcs: readonly { from: number; to: number }[]): boolean[][] {
  const before = Array.from({ length: count }, () => Array.from({ length: count }, () => false));
  for (const { from, to } of arcs) before[from][to] = true;
  for (let k = 0; k < count; k += 1)
    for (let i = 0; i < count; i += 1)
      if (before[i][k]) for (let j = 0; j < count; j += 1) before[i][j] ||= before[k][j];
  return before;
}

/**
 * People with skills for a constraint solver: who serves which skill of which task, pairs of tasks
 * that share nobody unless one is over before the other begins, and for each set of skills a
 * cumulative that says how many people have any of them (K. D. Young, T. Feydy, A. Schutt,
 * CP 2017, from memory: overlap variables for unordered pairs, redundant cumulatives).
 */
export function skillsModel(problem: Problem, horizon: number): string {
  const { activities, builders, skills } = problem;
  const shop = shopOf(problem);
  const windows = windowsOf(shop, horizon);
  if (windows === null) return HOPELESS;
  const durations = shop.durations.map(([own]) => own);
  const n = durations.length;
  const before = ordered(n, shop.arcs);
  const need = activities.map(({ modes: [{ crew }] }) =>
    skills.map((_, k) =>
      crew.reduce((sum, { skill, count }) => sum + (skill === k ? count : 0), 0),
    ),
  );
  const crewOf = need.map((own) => own.reduce((a, b) => a + b, 0));
  const has = builders.map(({ abilities }) =>
    skills.map((_, k) => (abilities.some(({ skill }) => skill === k) ? 1 : 0)),
  );
  const pairs = durations.flatMap((_, i) =>
    durations.flatMap((_other, j) =>
      i < j && !before[i][j] && !before[j][i] && crewOf[i] > 0 && crewOf[j] > 0
        ? [[i + 1, j + 1]]
        : [],
    ),
  );
  // Sets of skills: each, each two, and all.
  const sets = [
    ...skills.map((_, k) => [k]),
    ...skills.flatMap((_, k) => skills.flatMap((_other, l) => (k < l ? [[k, l]] : []))),
    skills.map((_, k) => k),
  ];
  const cumulatives = sets.map((set) => {
    const amounts = need.map((own) => set.reduce((sum, k) => sum + own[k], 0));
    const people = has.filter((own) => set.some((k) => own[k] === 1)).length;
    return `constraint cumulative(s, D, ${list(amounts)}, ${people});`;
  });
  const alike = builders.flatMap((_, p) => {
    const next = has.findIndex((own, q) => q > p && own.join() === has[p].join());
    return next < 0 ? [] : [[p + 1, next + 1]];
  });
  return [
    'include "cumulative.mzn";',
    'include "lex_lesseq.mzn";',
    `int: N = ${n};`,
    `int: P = ${builders.length};`,
    `int: S = ${skills.length};`,
    `array[1..N] of int: D = ${list(durations)};`,
    `array[1..N, 1..S] of int: NEED = ${table(need)};`,
    `array[1..P, 1..S] of int: HAS = ${table(has)};`,
    `array[1..N] of var 0..${horizon}: s;`,
    ...windows.earliest.map(
      (start, i) => `constraint s[${i + 1}] >= ${start} /\\ s[${i + 1}] <= ${windows.latest[i]};`,
    ),
    ...shop.arcs.map(
      ({ from, to, by }) => `constraint s[${to + 1}] >= s[${from + 1}] + (${by[0]});`,
    ),
    'array[1..N, 1..P, 1..S] of var 0..1: serves;',
    'constraint forall(i in 1..N, p in 1..P, k in 1..S where NEED[i, k] = 0 \\/ HAS[p, k] = 0)(serves[i, p, k] = 0);',
    'constraint forall(i in 1..N, k in 1..S where NEED[i, k] > 0)(sum(p in 1..P)(serves[i, p, k]) = NEED[i, k]);',
    'array[1..N, 1..P] of var 0..1: on = array2d(1..N, 1..P, [sum(k in 1..S where NEED[i, k] > 0 /\\ HAS[p, k] = 1)(serves[i, p, k]) | i in 1..N, p in 1..P]);',
    `array[1..${pairs.length}, 1..2] of int: PAIR = ${pairs.length === 0 ? 'array2d(1..0, 1..2, [])' : table(pairs)};`,
    'constraint forall(x in index_set_1of2(PAIR))(',
    '  let { int: i = PAIR[x, 1]; int: j = PAIR[x, 2]; var bool: apart = (s[i] + D[i] <= s[j] \\/ s[j] + D[j] <= s[i]); } in',
    '  forall(p in 1..P)(apart \\/ on[i, p] + on[j, p] <= 1)',
    ');',
    ...cumulatives,
    // Equals are used in order.
    ...alike.map(
      ([p, q]) => `constraint lex_lesseq([on[i, ${q}] | i in 1..N], [on[i, ${p}] | i in 1..N]);`,
    ),
    `var 0..${horizon}: makespan;`,
    'constraint forall(i in 1..N)(s[i] + D[i] <= makespan);',
    'solve :: seq_search([int_search(s, smallest, indomain_min), int_search(array1d(on), first_fail, indomain_max)]) minimize makespan;',
    printed('s', '[]', 'array1d(serves)'),
  ].join('\n');
}
