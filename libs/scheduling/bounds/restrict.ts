import type { Problem } from '../model/problem.ts';

/** The problem with only some activities and lags; `activities` and `lags` map its indices back. */
export interface Restricted {
  readonly problem: Problem;
  readonly activities: readonly number[];
  readonly lags: readonly number[];
}

/** Keeps the activities in `only` and those of `lags` whose ends are kept. */
export function restrict(
  problem: Problem,
  only: ReadonlySet<number>,
  lags: ReadonlySet<number>,
): Restricted {
  const activities = problem.activities.flatMap((_, a) => (only.has(a) ? [a] : []));
  const kept = problem.lags.flatMap((lag, l) =>
    lags.has(l) && only.has(lag.from) && only.has(lag.to) ? [l] : [],
  );
  const newActivity = new Map(activities.map((a, i) => [a, i]));
  const newLag = new Map(kept.map((l, i) => [l, i]));
  const mapped = (list: readonly number[], by: ReadonlyMap<number, number>): number[] =>
    list.flatMap((old) => {
      const index = by.get(old);
      return index === undefined ? [] : [index];
    });
  const at = (old: number): number => newActivity.get(old) ?? -1;
  return {
    activities,
    lags: kept,
    problem: {
      ...problem,
      activities: activities.map((a) => problem.activities[a]),
      lags: kept.map((l) => ({
        ...problem.lags[l],
        from: at(problem.lags[l].from),
        to: at(problem.lags[l].to),
      })),
      choices: problem.choices.map((choice) => ({
        ...choice,
        branches: choice.branches.map((branch) => ({
          ...branch,
          activities: mapped(branch.activities, newActivity),
          lags: mapped(branch.lags, newLag),
        })),
      })),
      surfaces: problem.surfaces.flatMap((s) =>
        only.has(s.activity) ? [{ ...s, activity: at(s.activity) }] : [],
      ),
    },
  };
}
