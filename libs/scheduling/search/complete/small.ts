import type { Interval, Mode, Problem } from '../../model/problem.ts';

/**
 * Measured on planted problems (testing/planted.ts) of 4 to 16 activities in 3 to 5 days: of 10
 * with up to 30,000 candidates seven were decided in four seconds of processor time, and one of
 * three above that; at 86,000 a node takes some milliseconds and a world a second to set up.
 */
const MOST_ACTIVITIES = 16;
const MOST_CANDIDATES = 60_000;
/** Candidates in all worlds together: each keeps tables of its own. */
const MOST_IN_ALL = 400_000;

/** n over k, capped. */
function choose(n: number, k: number): number {
  let ways = 1;
  for (let i = 0; i < k; i += 1) ways = Math.min(MOST_CANDIDATES, (ways * (n - i)) / (i + 1));
  return Math.max(0, ways);
}

/** No fewer crews than there are. */
function crews(problem: Problem, mode: Mode): number {
  return mode.crew.reduce((product, { skill, minLevel, count }) => {
    const able = problem.builders.filter(({ abilities }) =>
      abilities.some((one) => one.skill === skill && one.level >= minLevel),
    );
    return Math.min(MOST_CANDIDATES, product * choose(able.length, count));
  }, 1);
}

const minutes = (spans: readonly Interval[]): number =>
  spans.reduce((sum, { start, end }) => sum + end - start, 0);

/** No fewer starts than there are, nobody starting outside shifts and overtime. */
function starts(problem: Problem, mode: Mode): number {
  if (mode.crew.length === 0) return problem.horizon + 1;
  const able = problem.builders.filter(({ abilities }) =>
    abilities.some(({ skill }) => skill === mode.crew[0].skill),
  );
  const hours = new Set(able.map(({ calendar }) => problem.calendars[calendar]));
  return [...hours].reduce(
    (most, { shifts, overtime }) => Math.max(most, minutes(shifts) + minutes(overtime)),
    0,
  );
}

/**
 * Whether the complete search has a good chance to decide the problem, by a rough count of
 * activities, worlds and candidate placements.
 */
export function isSmall(problem: Problem): boolean {
  if (problem.activities.length > MOST_ACTIVITIES) return false;
  const worlds = problem.choices.reduce((all, { branches }) => all * branches.length, 1);
  const most = Math.min(MOST_CANDIDATES, MOST_IN_ALL / worlds);
  let candidates = 0;
  for (const { modes, fixed } of problem.activities) {
    if (fixed?.kind === 'frozen') continue;
    for (const mode of modes) {
      const manned = mode.crew.length === 0 ? 1 : crews(problem, mode);
      const set = fixed !== null && fixed.start !== null;
      candidates += manned * (set ? 1 : starts(problem, mode));
      if (candidates > most) return false;
    }
  }
  return true;
}
