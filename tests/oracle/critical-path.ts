import type { LagFunction, Problem } from '#scheduling/model/problem.ts';
import { said } from './data/functions.ts';
import { rankValues } from './data/ranks.ts';
import type { Way } from './ways/ways.ts';

interface Earliest {
  start: number;
  finish: number;
}

/** The least that a function asks of anchor time `at`. */
const opening = ({ tables }: Problem, fn: LagFunction, at: number): number =>
  fn.kind === 'constant' ? at + fn.minutes : said(tables[fn.table], Math.max(0, at), true);

/**
 * Values of the first two ranks that no plan can be below, by the longest path alone: earliest
 * times by everybody's hours and the openings between work that is always done, as if people,
 * tools, parts and air were plenty. Null where even so there is no time for something.
 */
export function criticalPath(problem: Problem, ways: readonly Way[]): [number, number] | null {
  const optional = new Set(
    problem.choices.flatMap(({ branches }) => branches.flatMap(({ activities }) => activities)),
  );
  const conditional = new Set(
    problem.choices.flatMap(({ branches }) => branches.flatMap((branch) => branch.lags)),
  );
  const times = problem.activities.map((_, a) =>
    ways.filter(({ activity }) => activity === a).flatMap((way) => way.times),
  );
  const earliest: (Earliest | null)[] = times.map((_, a) =>
    optional.has(a) ? null : { start: -Infinity, finish: -Infinity },
  );
  for (let moved = true; moved;) {
    moved = false;
    problem.lags.forEach((lag, l) => {
      const from = earliest[lag.from];
      const to = earliest[lag.to];
      if (lag.bound === 'close' || conditional.has(l) || from === null || to === null) return;
      if (from[lag.fromAnchor] === -Infinity) return;
      const least = Math.min(...lag.fns.map((fn) => opening(problem, fn, from[lag.fromAnchor])));
      to[lag.toAnchor] = Math.max(to[lag.toAnchor], least);
    });
    for (const [a, own] of earliest.entries()) {
      if (own === null) continue;
      const left = times[a].filter((t) => t.start >= own.start && t.finish >= own.finish);
      if (left.length === 0) return null;
      const start = Math.min(...left.map((t) => t.start));
      const finish = Math.min(...left.map((t) => t.finish));
      if (start > own.start || finish > own.finish) moved = true;
      own.start = start;
      own.finish = finish;
    }
  }
  const finishes = problem.refits.map((_, r) =>
    Math.max(
      0,
      ...earliest.map((own, a) => (problem.activities[a].refit === r ? (own?.finish ?? 0) : 0)),
    ),
  );
  return rankValues(problem, finishes);
}
