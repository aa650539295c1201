import type { LagFunction, Problem } from '#scheduling/model/problem.ts';
import { said } from '../../../oracle/data/functions.ts';
import { waysOf } from '../../../oracle/ways/ways.ts';
import { HOPELESS, printed } from './answer.ts';
import { list, table } from './text.ts';

/**
 * Work under calendars for a constraint solver: the finish is a function of the start, taken from
 * a list; resources that nobody gives back while waiting are a global cumulative, the others are
 * summed in each period (S. Kreter, A. Schutt, P. J. Stuckey, Constraints 22 (2017) 432-462, from
 * memory). One mode and no people.
 */
export function calendarsModel(given: Problem, horizon: number): string {
  const problem = { ...given, horizon };
  const { activities, resources, lags, tables } = problem;
  const ways = waysOf(problem);
  if (activities.some((_, a) => ways.every(({ activity }) => activity !== a))) return HOPELESS;
  const own = activities.map((_, a) => ways.find(({ activity }) => activity === a));
  const n = activities.length;
  const times = Array.from({ length: horizon + 1 }, (_, t) => t);
  const finish = own.map((way) => {
    const of = new Map((way?.times ?? []).map((time) => [time.start, time.finish]));
    return times.map((t) => of.get(t) ?? -1);
  });
  const amount = (a: number, r: number): number =>
    activities[a].modes[0].demands.reduce(
      (sum, demand) => sum + (demand.resource === r ? demand.amount : 0),
      0,
    );
  const keeps = (a: number, r: number): boolean =>
    activities[a].modes[0].demands.some((one) => one.resource === r && one.keptWhilePaused);
  const open = (a: number, t: number): boolean => own[a]?.open?.[t] ?? true;

  /** What does not pause takes its time. */
  const lasting = (a: number): string =>
    own[a]?.open === null ? String(activities[a].modes[0].duration) : `d[${a + 1}]`;

  const supply = resources.flatMap(({ steps }, r) => {
    const users = activities.flatMap((_, a) => (amount(a, r) > 0 ? [a] : []));
    const giving = users.filter((a) => own[a]?.open !== null && !keeps(a, r));
    const whole = users.filter((a) => !giving.includes(a));
    const capacity = steps[0].capacity;
    const together = (some: readonly number[]): string =>
      `constraint cumulative(${list(some.map((a) => `s[${a + 1}]`))}, ${list(some.map((a) => lasting(a)))}, ${list(some.map((a) => amount(a, r)))}, ${capacity});`;
    const first = whole.length > 1 ? [together(whole)] : [];
    if (giving.length === 0) return first;
    const periods = times.slice(0, -1).flatMap((t) => {
      const here = users.filter((a) => !giving.includes(a) || open(a, t));
      const most = here.reduce((sum, a) => sum + amount(a, r), 0);
      if (most <= capacity) return [];
      const terms = here.map(
        (a) => `${amount(a, r)} * bool2int(s[${a + 1}] <= ${t} /\\ e[${a + 1}] > ${t})`,
      );
      return [`constraint ${terms.join(' + ')} <= ${capacity};`];
    });
    return [...first, ...periods];
  });

  const limit = (fn: LagFunction, at: string, opens: boolean): string => {
    if (fn.kind === 'constant') return `${at} + (${fn.minutes})`;
    const values = times.map((t) => said(tables[fn.table], t, opens));
    return `array1d(0..${horizon}, ${list(values)})[${at}]`;
  };
  const anchored = (a: number, anchor: 'start' | 'finish'): string =>
    `${anchor === 'start' ? 's' : 'e'}[${a + 1}]`;
  return [
    'include "cumulative.mzn";',
    `array[1..${n}] of var 0..${horizon}: s;`,
    `array[1..${n}] of var 0..${horizon}: e;`,
    `array[1..${n}] of var 0..${horizon}: d;`,
    `constraint forall(i in 1..${n})(d[i] = e[i] - s[i]);`,
    `array[1..${n}, 0..${horizon}] of int: FINISH = ${table(finish, 0)};`,
    `constraint forall(i in 1..${n})(s[i] in { t | t in 0..${horizon} where FINISH[i, t] >= 0 });`,
    `constraint forall(i in 1..${n})(e[i] = FINISH[i, s[i]]);`,
    ...lags.map(({ from, fromAnchor, to, toAnchor, bound, fns }) => {
      const opens = bound === 'open';
      const at = limit(fns[0], anchored(from, fromAnchor), opens);
      return `constraint ${anchored(to, toAnchor)} ${opens ? '>=' : '<='} ${at};`;
    }),
    ...supply,
    `var 0..${horizon}: makespan = max(e);`,
    'solve :: int_search(s, smallest, indomain_min) minimize makespan;',
    printed('s', '[]', '[]'),
  ].join('\n');
}
