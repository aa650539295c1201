import type { Problem } from '#scheduling/model/problem.ts';
import { rows } from '../dzn.ts';
import type { Way } from '../ways/ways.ts';
import { byWay, byWayAnd, firstMinute, type Data } from './tables.ts';

/** The data of model/work.mzn. */
export function work(problem: Problem, ways: readonly Way[]): Data {
  const { activities, builders, choices, horizon } = problem;
  const first = firstMinute(problem);
  const minutes = Array.from({ length: horizon - first + 1 }, (_, k) => first + k);
  const place = activities.map((_, a) => {
    for (const [c, { branches }] of choices.entries())
      for (const [b, branch] of branches.entries())
        if (branch.activities.includes(a)) return [c + 1, b + 1];
    return [0, 0];
  });
  const sets = activities.map((_, a) => {
    const times = ways.flatMap((way) => (way.activity === a ? way.times : []));
    // What has no time at all is refused by its table, not by an empty set.
    const absent = place[a][0] === 0 && times.length > 0 ? [] : [0];
    return {
      starts: new Set([...absent, ...times.map(({ start }) => start)]),
      finishes: new Set([...absent, ...times.map(({ finish }) => finish)]),
    };
  });
  return {
    ACTIVITIES: activities.length,
    WAYS: ways.length,
    BUILDERS: builders.length,
    FIRST: first,
    HORIZON: horizon,
    WAYS_OF: activities.map(
      (_, a) => new Set(ways.flatMap((way, w) => (way.activity === a ? [w + 1] : []))),
    ),
    ROWS: rows(
      ways.flatMap(({ activity, times }, w) =>
        times.map(({ start, finish }) => [activity + 1, w + 1, start, finish]),
      ),
      4,
    ),
    STARTS: sets.map(({ starts }) => starts),
    FINISHES: sets.map(({ finishes }) => finishes),
    MODE: byWay(
      0,
      ways.map(({ mode }) => mode + 1),
    ),
    CLEAN_DOWN: byWay(
      0,
      ways.map(({ cleanDown }) => cleanDown),
    ),
    OPEN: byWayAnd(
      false,
      minutes.length,
      ways.map(({ open }) => minutes.map((at) => open === null || open.at(at) === true)),
      first,
    ),
    CREW: byWayAnd(
      false,
      builders.length,
      ways.map(({ crew }) => builders.map((_, b) => crew.some(({ builder }) => builder === b))),
    ),
    UNLIMITED: builders.map(({ unlimited }) => unlimited),
    FROZEN: activities.map(({ fixed }) => fixed?.kind === 'frozen'),
    CHOICES: choices.length,
    BRANCHES: choices.map(({ branches }) => branches.length),
    CHOICE_OF: place.map(([c]) => c),
    BRANCH_OF: place.map(([, b]) => b),
  };
}
