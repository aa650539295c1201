import type { Choice, Problem } from '../model/problem.ts';
import type { Compiled } from '../search/crew/compiled/compiled.ts';
import {
  copyDomains,
  firstDomains,
  isCertain,
  propagate,
  rootOf,
  ruledOut,
  setDomains,
  type Assumed,
  type Domains,
  type Root,
} from './domains.ts';

/** What propagation alone proves of a problem. */
export interface Analysis {
  readonly root: Root;
  readonly domains: Domains;
  readonly assumed: Assumed;
  /** No refit can finish earlier. */
  readonly finishes: readonly number[];
  /** An activity that can be nowhere though it must be somewhere, or -1. */
  readonly empty: number;
  /** A choice of which no branch is possible, or -1. */
  readonly deadChoice: number;
}

const ROUNDS = 4;

/** The latest earliest finish of what is certainly present, by refit. */
function leastFinishes(root: Root, domains: Domains, assumed: Assumed): Float64Array {
  const least = new Float64Array(root.problem.refits.length);
  root.problem.activities.forEach(({ refit }, a) => {
    if (refit !== null && isCertain(root, assumed, a))
      least[refit] = Math.max(least[refit], domains.finishFrom[a]);
  });
  return least;
}

const raise = (into: Float64Array, by: Float64Array): boolean => {
  let moved = false;
  for (let i = 0; i < into.length; i += 1)
    if (by[i] > into[i]) {
      into[i] = by[i];
      moved = true;
    }
  return moved;
};

const lower = (into: Float64Array, by: Float64Array): boolean => {
  let moved = false;
  for (let i = 0; i < into.length; i += 1)
    if (by[i] < into[i]) {
      into[i] = by[i];
      moved = true;
    }
  return moved;
};

/** Weakens each bound to what both say. */
function weaken(into: Domains, by: Domains): void {
  lower(into.startFrom, by.startFrom);
  lower(into.finishFrom, by.finishFrom);
  raise(into.startTo, by.startTo);
  raise(into.finishTo, by.finishTo);
}

/** Activities that assuming a branch may narrow at once. */
function touched({ problem, incoming }: Root, c: number, b: number): number[] {
  const { activities, lags } = problem.choices[c].branches[b];
  const ends = lags.flatMap((l) => [problem.lags[l].from, problem.lags[l].to]);
  const near = activities.flatMap((a) => [a, ...incoming[a].map(({ from }) => from)]);
  return [...new Set([...activities, ...ends, ...near])];
}

/** The branches that frozen work leaves: the one it belongs to, none if it belongs to two. */
function leftOpen({ activities }: Problem, { branches }: Choice): Uint8Array {
  const happened = branches.map((branch) =>
    branch.activities.some((a) => activities[a].fixed?.kind === 'frozen'),
  );
  const count = happened.filter(Boolean).length;
  return Uint8Array.from(happened, (here) => Number(count === 0 || (count === 1 && here)));
}

/**
 * Earliest and latest moments by propagation of lags, calendars, forbidden starts and frozen
 * work, and of choices by constructive disjunction: each branch is tried, and what all that are
 * possible agree on holds (Van Hentenryck, Saraswat & Deville, "Design, implementation, and
 * evaluation of the constraint language cc(FD)", J. Logic Programming 37, 1998). Lags are
 * non-decreasing, so that the exact functions carry bounds to bounds. Complexity: rounds x
 * branches x one propagation.
 */
export function analyse(compiled: Compiled): Analysis {
  const root = rootOf(compiled);
  const { problem, owners } = root;
  const domains = firstDomains(root);
  const assumed: Assumed = {
    taken: new Int16Array(problem.choices.length).fill(-1),
    possible: problem.choices.map((choice) => leftOpen(problem, choice)),
  };
  const finishes = new Float64Array(problem.refits.length);
  let deadChoice = -1;

  const rule = (c: number, b: number): void => {
    assumed.possible[c][b] = 0;
    settle(c);
  };
  const settle = (c: number): void => {
    const left = [...assumed.possible[c]].flatMap((ok, b) => (ok === 1 ? [b] : []));
    if (left.length === 0) deadChoice = c;
    else if (left.length === 1) assumed.taken[c] = left[0];
  };
  const emptied = (a: number): boolean => {
    const choice = owners.activityChoice[a];
    const branch = owners.activityBranch[a];
    if (choice < 0 || assumed.taken[choice] === branch) return false;
    rule(choice, branch);
    return deadChoice < 0;
  };
  const result = (empty: number): Analysis => ({
    root,
    domains,
    assumed,
    finishes: [...finishes],
    empty,
    deadChoice,
  });

  problem.choices.forEach((_, c) => {
    settle(c);
  });
  if (deadChoice >= 0) return result(-1);
  const near = problem.choices.map(({ branches }, c) =>
    branches.map((_, b) => touched(root, c, b)),
  );
  const probe = copyDomains(domains);
  const common = copyDomains(domains);
  for (let round = 0; round < ROUNDS; round += 1) {
    const empty = propagate(root, domains, assumed, null, emptied);
    if (empty >= 0 || deadChoice >= 0) return result(empty);
    let moved = raise(finishes, leastFinishes(root, domains, assumed)) && round === 0;
    for (let c = 0; c < problem.choices.length; c += 1) {
      if (assumed.taken[c] >= 0) continue;
      const { branches } = problem.choices[c];
      let least: Float64Array | null = null;
      for (let b = 0; b < branches.length; b += 1) {
        if (assumed.possible[c][b] === 0) continue;
        setDomains(probe, domains);
        const taken = assumed.taken.slice();
        taken[c] = b;
        const given: Assumed = { taken, possible: assumed.possible };
        const optional = (a: number): boolean => !isCertain(root, given, a);
        if (propagate(root, probe, given, near[c][b], optional) >= 0) {
          rule(c, b);
          moved = true;
          if (deadChoice >= 0) return result(-1);
          continue;
        }
        const ends = leastFinishes(root, probe, given);
        // Activities of other branches are absent here: this probe says nothing of them.
        branches.forEach(({ activities }, other) => {
          if (other === b) return;
          for (const a of activities) {
            probe.startFrom[a] = probe.finishFrom[a] = Infinity;
            probe.startTo[a] = probe.finishTo[a] = -Infinity;
          }
        });
        if (least === null) {
          least = ends;
          setDomains(common, probe);
        } else {
          lower(least, ends);
          weaken(common, probe);
        }
      }
      if (least === null) continue;
      for (const { activities } of branches)
        for (const a of activities) {
          if (!ruledOut(root, assumed, a) && Number.isFinite(common.startFrom[a])) continue;
          common.startFrom[a] = common.finishFrom[a] = -Infinity;
          common.startTo[a] = common.finishTo[a] = Infinity;
        }
      if (raise(domains.startFrom, common.startFrom)) moved = true;
      if (raise(domains.finishFrom, common.finishFrom)) moved = true;
      if (lower(domains.startTo, common.startTo)) moved = true;
      if (lower(domains.finishTo, common.finishTo)) moved = true;
      if (raise(finishes, least)) moved = true;
    }
    if (!moved) break;
  }
  return result(-1);
}
