import { lagAt } from '../../model/lag.ts';
import type { Anchor, Problem } from '../../model/problem.ts';
import type { Candidate, Way } from './candidates.ts';

/** A lag between two present activities, by local index, with its value for each candidate of `from`. */
export interface Link {
  readonly from: number;
  readonly to: number;
  readonly toAnchor: Anchor;
  readonly open: boolean;
  readonly limits: Int32Array;
}

/**
 * The problem once every choice is made: the present activities, numbered anew, and where
 * each may be.
 */
export interface World {
  readonly problem: Problem;
  readonly branches: readonly number[];
  /** The activity of each local index, and the local index of each activity or -1. */
  readonly activities: readonly number[];
  readonly local: readonly number[];
  readonly domains: readonly (readonly Candidate[])[];
  readonly starts: readonly Int32Array[];
  readonly finishes: readonly Int32Array[];
  /** Way of each candidate, numbered through all activities. */
  readonly ways: readonly Int32Array[];
  readonly wayCount: number;
  readonly links: readonly Link[];
  /** Disturbance by work that is left out. */
  readonly missed: number;
}

/** Every way to take one branch of each choice; where work has happened its branch is taken. */
export function branchings(problem: Problem): number[][] {
  const happened = (activity: number): boolean =>
    problem.activities[activity].fixed?.kind === 'frozen';
  return problem.choices.reduce<number[][]>(
    (all, { branches }) => {
      const open = branches.flatMap((_, b) =>
        branches.some((other, o) => o !== b && other.activities.some(happened)) ? [] : [b],
      );
      return all.flatMap((taken) => open.map((b) => [...taken, b]));
    },
    [[]],
  );
}

interface Chosen {
  readonly present: readonly boolean[];
  readonly holds: readonly boolean[];
}

function chosen(problem: Problem, branches: readonly number[]): Chosen {
  const present = problem.activities.map(() => true);
  const holds = problem.lags.map(() => true);
  problem.choices.forEach((choice, c) => {
    choice.branches.forEach((branch, b) => {
      for (const activity of branch.activities) present[activity] = b === branches[c];
      for (const lag of branch.lags) holds[lag] = b === branches[c];
    });
  });
  return { present, holds };
}

/** Parts that nothing present can move stay where they are: work elsewhere is ruled out. */
function inPlace(problem: Problem, all: readonly (readonly Candidate[])[]): Candidate[][] {
  const movable = new Set(
    all.flatMap((domain) =>
      domain.flatMap(({ way }) =>
        way.work.movesTo === null ? [] : problem.activities[way.activity].parts,
      ),
    ),
  );
  return all.map((domain) =>
    domain.filter(
      ({ way }) =>
        way.frozen ||
        way.work.space === null ||
        problem.activities[way.activity].parts.every(
          (part) => movable.has(part) || problem.parts[part].space === way.work.space,
        ),
    ),
  );
}

/** What keeps its lags to itself: a pot life. */
function withinOwnLags(
  problem: Problem,
  { holds }: Chosen,
  activity: number,
  domain: readonly Candidate[],
): readonly Candidate[] {
  const own = problem.lags.filter(
    ({ from, to }, lag) => from === activity && to === activity && holds[lag],
  );
  return domain.filter((c) =>
    own.every((lag) => {
      const limit = lagAt(problem, lag, c.way.mode, c[lag.fromAnchor]);
      return lag.bound === 'open' ? c[lag.toAnchor] >= limit : c[lag.toAnchor] <= limit;
    }),
  );
}

function linksOf(
  problem: Problem,
  { present, holds }: Chosen,
  local: readonly number[],
  domains: readonly (readonly Candidate[])[],
): Link[] {
  return problem.lags.flatMap((lag, index) => {
    if (!holds[index] || !present[lag.from] || !present[lag.to] || lag.from === lag.to) return [];
    const from = local[lag.from];
    const to = local[lag.to];
    const limits = Int32Array.from(domains[from], (c) =>
      lagAt(problem, lag, c.way.mode, c[lag.fromAnchor]),
    );
    return [{ from, to, toAnchor: lag.toAnchor, open: lag.bound === 'open', limits }];
  });
}

/** `all` holds the candidates of every activity of the problem. */
export function worldOf(
  problem: Problem,
  all: readonly (readonly Candidate[])[],
  branches: readonly number[],
): World {
  const what = chosen(problem, branches);
  const activities = problem.activities.flatMap((_, a) => (what.present[a] ? [a] : []));
  const local = problem.activities.map((_, a) => activities.indexOf(a));
  const domains = inPlace(
    problem,
    activities.map((a) => withinOwnLags(problem, what, a, all[a])),
  );
  const numbers = new Map<Way, number>();
  const ways = domains.map((domain) =>
    Int32Array.from(domain, ({ way }) => {
      const number = numbers.get(way) ?? numbers.size;
      numbers.set(way, number);
      return number;
    }),
  );
  const missed = (problem.published?.tasks ?? []).reduce(
    (sum, { activity, weight }) => sum + (what.present[activity] ? 0 : weight),
    0,
  );
  return {
    problem,
    branches,
    activities,
    local,
    domains,
    starts: domains.map((domain) => Int32Array.from(domain, ({ start }) => start)),
    finishes: domains.map((domain) => Int32Array.from(domain, ({ finish }) => finish)),
    ways,
    wayCount: numbers.size,
    links: linksOf(problem, what, local, domains),
    missed,
  };
}
