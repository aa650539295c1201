import { check } from '../checker/check.ts';
import type { Reading, Work } from '../checker/reading.ts';
import type { Plan, RankValues } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { addsOf, floorOf, type Adds } from './brute/floor.ts';
import { empty, enough, options, together } from './brute/options.ts';
import { worth } from './worth.ts';

/** The exact answer to a tiny problem. */
interface Optimum {
  /** Least value of each rank with every earlier one at most its least plus its tolerance. */
  readonly least: RankValues;
  /** A plan worth `least[3]` in the last rank, the earlier ones within those caps. */
  readonly plan: Plan;
}

interface Option extends Work {
  readonly adds: Adds;
  /** By activity: which of its options go with this one; worked out when asked for. */
  readonly goesWith: (Uint8Array | undefined)[];
}

/** What is open under one branching: the options of its present activities. */
interface Branching {
  readonly branches: readonly number[];
  readonly reading: Reading;
  readonly own: readonly (readonly Option[])[];
  /** Disturbance of the published tasks that are absent. */
  readonly absent: number;
}

/** Every way to take one branch of each choice. */
const branchings = (problem: Problem): number[][] =>
  problem.choices.reduce<number[][]>(
    (all, choice) => all.flatMap((taken) => choice.branches.map((_, b) => [...taken, b])),
    [[]],
  );

function branching(problem: Problem, branches: readonly number[]): Branching[] {
  const reading = empty(problem, branches);
  const happened = problem.activities.some(
    ({ fixed }, a) => fixed?.kind === 'frozen' && !reading.present[a],
  );
  if (happened) return [];
  const own = options(reading).map((list) =>
    list.map((work): Option => ({ ...work, adds: addsOf(problem, work), goesWith: [] })),
  );
  const away = problem.published?.tasks.filter(({ activity }) => !reading.present[activity]) ?? [];
  const absent = away.reduce((sum, { weight }) => sum + weight, 0);
  return own.every((list) => list.length > 0) ? [{ branches, reading, own, absent }] : [];
}

/** Those of a list that go with an option; `indices` into `all`. */
function kept(
  reading: Reading,
  option: Option,
  all: readonly Option[],
  indices: readonly number[],
): number[] {
  const { activity } = all[0].placement;
  let row = option.goesWith[activity];
  if (row === undefined) {
    row = Uint8Array.from(all, (other) => (together(reading, option, other) ? 1 : 0));
    option.goesWith[activity] = row;
  }
  const known = row;
  return indices.filter((i) => known[i] === 1);
}

interface Left {
  readonly all: readonly Option[];
  readonly indices: readonly number[];
}

const minimum = (left: Left): { refit: number | null; finish: number; adds: Adds } => {
  const first = left.all[left.indices[0]];
  let money = Infinity;
  let disturbance = Infinity;
  for (const i of left.indices) {
    const { adds } = left.all[i];
    money = Math.min(money, adds.money);
    disturbance = Math.min(disturbance, adds.disturbance);
  }
  // Options are sorted by finish.
  return {
    refit: first.activity.refit,
    finish: first.placement.finish,
    adds: { money, disturbance },
  };
};

/**
 * Depth first over all combinations: an activity takes each option in turn, and the others
 * keep the options that go with it; what is placed is judged by the whole checker in the end. A
 * combination is left as soon as its `floor` breaks a cap or is no better than the best.
 */
function least(
  problem: Problem,
  open: readonly Branching[],
  rank: number,
  caps: readonly number[],
  known: Plan | null,
  budget: { nodes: number },
): Plan | null {
  let best = known;
  const hopeless = (floor: RankValues): boolean =>
    caps.some((cap, r) => floor[r] > cap) || (best !== null && floor[rank] >= best.values[rank]);

  const step = (at: Branching, placed: readonly Option[], left: readonly Left[]): void => {
    if (hopeless(floorOf(problem, at.absent, placed, left.map(minimum)))) return;
    if (left.length === 0) {
      const placements = placed
        .map((work) => work.placement)
        .sort((a, b) => a.activity - b.activity);
      const plan = { placements, branches: at.branches, ...worth(problem, placements) };
      if (check(problem, plan).length === 0) best = plan;
      return;
    }
    const [first, ...rest] = [...left].sort((a, b) => a.indices.length - b.indices.length);
    for (const i of first.indices) {
      if (--budget.nodes < 0) throw new RangeError('too many combinations to try them all');
      const option = first.all[i];
      const next = [...placed, option];
      const others = rest.map(({ all, indices }) => ({
        all,
        indices: kept(at.reading, option, all, indices),
      }));
      if (others.some(({ indices }) => indices.length === 0)) continue;
      if (enough(at.reading, next)) step(at, next, others);
    }
  };
  for (const one of open)
    step(
      one,
      [],
      one.own.map((all) => ({ all, indices: all.map((_, i) => i) })),
    );
  return best;
}

/**
 * The exact optimum of all four ranks by trying every branch, mode, crew, overtime, slot and
 * minute; null where no plan exists. Exponential: for at most `maxActivities` activities and a
 * horizon of some forty minutes. Throws a RangeError where that does not suffice.
 */
export function bruteForce(problem: Problem, maxActivities = 6, nodes = 200_000): Optimum | null {
  if (problem.activities.length > maxActivities)
    throw new RangeError(`more than ${maxActivities} activities`);
  const budget = { nodes };
  const open = branchings(problem).flatMap((branches) => branching(problem, branches));
  const found: number[] = [];
  const caps: number[] = [];
  let plan: Plan | null = null;
  for (const rank of [0, 1, 2, 3] as const) {
    plan = least(problem, open, rank, caps, plan, budget);
    if (plan === null) return null;
    found.push(plan.values[rank]);
    caps.push(plan.values[rank] + (problem.tolerances.at(rank) ?? 0));
  }
  const [late, done, money, moved] = found;
  return plan && { least: [late, done, money, moved], plan };
}
