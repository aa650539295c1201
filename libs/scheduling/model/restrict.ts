import type { Constraint } from './constraint.ts';
import type { HoldEnd, Problem } from './problem.ts';

/** A problem with only some of the activities, and what its constraints are there. */
export interface Restricted {
  readonly problem: Problem;
  /** The constraint with the indices of the restricted problem; null where it is gone. */
  readonly renamed: (constraint: Constraint) => Constraint | null;
}

/** Old indices to new ones. */
const numbered = (kept: readonly number[]): ReadonlyMap<number, number> =>
  new Map(kept.map((old, index) => [old, index]));

const positions = <T>(list: readonly T[], keep: (one: T, index: number) => boolean): number[] =>
  list.flatMap((one, index) => (keep(one, index) ? [index] : []));

/** Keeps the activities in `only`, with the lags, surfaces and holds that are theirs. */
export function restrict(problem: Problem, only: ReadonlySet<number>): Restricted {
  const activities = positions(problem.activities, (_, a) => only.has(a));
  const lags = positions(problem.lags, ({ from, to }) => only.has(from) && only.has(to));
  const surfaces = positions(problem.surfaces, ({ activity }) => only.has(activity));
  const holds = positions(problem.holds, ({ activity }) => only.has(activity));
  const by = {
    activity: numbered(activities),
    lag: numbered(lags),
    surface: numbered(surfaces),
    hold: numbered(holds),
  };
  const at = (old: number): number => by.activity.get(old) ?? -1;
  const mapped = (list: readonly number[], map: ReadonlyMap<number, number>): number[] =>
    list.flatMap((old) => map.get(old) ?? []);
  const end = (one: HoldEnd): HoldEnd[] => {
    if (one.kind === 'lag') return [one];
    return only.has(one.activity) ? [{ ...one, activity: at(one.activity) }] : [];
  };
  const restricted: Problem = {
    ...problem,
    activities: activities.map((a) => problem.activities[a]),
    lags: lags.map((l) => {
      const lag = problem.lags[l];
      return { ...lag, from: at(lag.from), to: at(lag.to) };
    }),
    choices: problem.choices.map((choice) => ({
      ...choice,
      branches: choice.branches.map((branch) => ({
        ...branch,
        activities: mapped(branch.activities, by.activity),
        lags: mapped(branch.lags, by.lag),
      })),
    })),
    surfaces: surfaces.map((s) => {
      const surface = problem.surfaces[s];
      return {
        ...surface,
        activity: at(surface.activity),
        coveredBy: mapped(surface.coveredBy, by.activity),
      };
    }),
    holds: holds.map((h) => {
      const hold = problem.holds[h];
      return { ...hold, activity: at(hold.activity), ends: hold.ends.flatMap(end) };
    }),
    published: null,
  };
  const renamed = (one: Constraint): Constraint | null => {
    switch (one.kind) {
      case 'lag': {
        const lag = by.lag.get(one.lag);
        return lag === undefined ? null : { kind: 'lag', lag };
      }
      case 'surface': {
        const surface = by.surface.get(one.surface);
        return surface === undefined ? null : { kind: 'surface', surface };
      }
      case 'hold': {
        const hold = by.hold.get(one.hold);
        return hold === undefined ? null : { kind: 'hold', hold };
      }
      case 'crew':
      case 'fixed':
      case 'release':
      case 'forbidden':
        return only.has(one.activity) ? { ...one, activity: at(one.activity) } : null;
      default:
        return one;
    }
  };
  return { problem: restricted, renamed };
}
