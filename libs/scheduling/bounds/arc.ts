import { closesAt, functionFor, opensAt } from '../model/lag.ts';
import type { LagFunction, Problem } from '../model/problem.ts';
import { earliestReaching, latestOpened } from '../model/lag-inverse.ts';

/** A lag with the functions of the modes in which its anchor may still be done. `branch` is -1 where it always holds. */
export interface Arc {
  readonly lag: number;
  readonly from: number;
  readonly to: number;
  readonly fromFinish: boolean;
  readonly toFinish: boolean;
  readonly open: boolean;
  readonly fns: readonly LagFunction[];
  readonly choice: number;
  readonly branch: number;
}

/** The choice and branch that each activity and each lag belongs to; -1 for those of none. */
export interface Owners {
  readonly activityChoice: Int32Array;
  readonly activityBranch: Int32Array;
  readonly lagChoice: Int32Array;
  readonly lagBranch: Int32Array;
}

export function ownersOf({ activities, lags, choices }: Problem): Owners {
  const none = (n: number): Int32Array => new Int32Array(n).fill(-1);
  const owners: Owners = {
    activityChoice: none(activities.length),
    activityBranch: none(activities.length),
    lagChoice: none(lags.length),
    lagBranch: none(lags.length),
  };
  choices.forEach(({ branches }, c) => {
    branches.forEach((branch, b) => {
      for (const a of branch.activities) {
        owners.activityChoice[a] = c;
        owners.activityBranch[a] = b;
      }
      for (const l of branch.lags) {
        owners.lagChoice[l] = c;
        owners.lagBranch[l] = b;
      }
    });
  });
  return owners;
}

/** `modes[a]`: those in which activity `a` may still be done. */
export function arcsOf(
  problem: Problem,
  owners: Owners,
  modes: readonly (readonly number[])[],
): Arc[] {
  return problem.lags.map((lag, l) => ({
    lag: l,
    from: lag.from,
    to: lag.to,
    fromFinish: lag.fromAnchor === 'finish',
    toFinish: lag.toAnchor === 'finish',
    open: lag.bound === 'open',
    fns: lag.fns.length === 1 ? lag.fns : modes[lag.from].map((mode) => functionFor(lag.fns, mode)),
    choice: owners.lagChoice[l],
    branch: owners.lagBranch[l],
  }));
}

/** What the lag allows its `to` anchor at best, whatever the mode, when the `from` anchor is at `t`. */
export function boundTo(problem: Problem, { open, fns }: Arc, t: number): number {
  let bound = open ? Infinity : -Infinity;
  for (const fn of fns)
    bound = open
      ? Math.min(bound, opensAt(problem, fn, t))
      : Math.max(bound, closesAt(problem, fn, t));
  return bound;
}

/** What the lag allows its `from` anchor at best, whatever the mode, when the `to` anchor is at `t`. */
export function boundFrom(problem: Problem, { open, fns }: Arc, t: number): number {
  let bound = open ? -Infinity : Infinity;
  for (const fn of fns)
    bound = open
      ? Math.max(bound, latestOpened(problem, fn, t))
      : Math.min(bound, earliestReaching(problem, fn, t));
  return bound;
}
