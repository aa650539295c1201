import { plainMode } from '#scheduling/model/plain.ts';
import type { LagFunction, Problem } from '#scheduling/model/problem.ts';

/** All times of a problem of constant lags and no calendars so many times as long. */
export function scaled(problem: Problem, factor: number): Problem {
  const longer = (fn: LagFunction): LagFunction => {
    if (fn.kind !== 'constant') throw new Error('only constant lags are scaled');
    return { kind: 'constant', minutes: factor * fn.minutes };
  };
  return {
    ...problem,
    horizon: factor * problem.horizon,
    activities: problem.activities.map((one) => ({
      ...one,
      modes: one.modes.map((mode) => ({ ...mode, duration: factor * mode.duration })),
      releases: one.releases.map((release) => ({ ...release, at: factor * release.at })),
    })),
    lags: problem.lags.map((lag) => ({ ...lag, fns: lag.fns.map(longer) })),
  };
}

/**
 * The problem with one activity more, of a single minute and without any demand, that nothing
 * depends on: times that had a common divisor have none any more.
 */
export const undivided = (problem: Problem): Problem => ({
  ...problem,
  activities: [
    ...problem.activities,
    {
      id: 'minute',
      refit: null,
      modes: [plainMode({ duration: 1, demands: [] })],
      releases: [],
      parts: [],
      fixed: null,
      source: 'bench',
    },
  ],
});
