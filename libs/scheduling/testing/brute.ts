import { air } from '../checker/air.ts';
import { crew } from '../checker/crew.ts';
import { duration } from '../checker/duration.ts';
import { lags } from '../checker/lags.ts';
import { moments } from '../checker/moments.ts';
import { read, type Reading, type Work } from '../checker/reading.ts';
import { resources } from '../checker/resources.ts';
import { shifts } from '../checker/shifts.ts';
import { ranks } from '../checker/values.ts';
import type { Placement, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { candidates } from './candidates.ts';
import { range } from './draw.ts';

/** The exact answer to a tiny problem. */
export interface Optimum {
  /** Least value of rank 1. */
  readonly lateness: number;
  /** Least value of rank 2 with rank 1 at most `lateness` plus its tolerance. */
  readonly finishes: number;
  /** A plan worth `finishes` under that cap. */
  readonly plan: Plan;
}

/**
 * Rules that a part of a plan breaks only if every plan that it is a part of does: adding
 * a placement takes no violation away. They decide alone, in pairs and together.
 */
const rules = [duration, shifts, crew, moments, lags, resources, air];

const allowed = (reading: Reading, placed: readonly Work[]): boolean => {
  const workOf: (Work | undefined)[] = reading.problem.activities.map(() => undefined);
  for (const work of placed) workOf[work.placement.activity] = work;
  const part = { ...reading, work: placed, workOf };
  return rules.every((rule) => rule(part).length === 0);
};

const finishesOf = (problem: Problem, placed: readonly Work[]): number[] =>
  problem.refits.map((_, r) =>
    Math.max(0, ...placed.map((w) => (w.activity.refit === r ? w.placement.finish : 0))),
  );

function workOf({ problem }: Reading, placement: Placement): Work {
  const activity = problem.activities[placement.activity];
  const mode = activity.modes[placement.mode];
  return { placement, activity, mode, frozen: activity.fixed?.kind === 'frozen' };
}

/** Every way to take one branch of each choice. */
const branchings = (problem: Problem): number[][] =>
  problem.choices.reduce<number[][]>(
    (all, choice) => all.flatMap((taken) => choice.branches.map((_, b) => [...taken, b])),
    [[]],
  );

/** Domains of the present activities under one branching, each candidate allowed by itself. */
function domains(problem: Problem, branches: readonly number[]): [Reading, Work[][]] {
  const reading = read(problem, { placements: [], branches, finishes: [], values: [0, 0] });
  const own = range(problem.activities.length)
    .filter((a) => reading.present[a])
    .map((a) =>
      candidates(reading, a)
        .map((placement) => workOf(reading, placement))
        .filter((work) => allowed(reading, [work]))
        .sort((a, b) => a.placement.finish - b.placement.finish),
    );
  return [reading, own.sort((a, b) => a.length - b.length)];
}

/**
 * Depth first over all combinations: an activity takes each candidate in turn, and the
 * others keep the candidates that go with it. `worth` of a part is never more than that
 * of the whole, and null where the cap is broken.
 */
function least(
  reading: Reading,
  own: readonly (readonly Work[])[],
  worth: (placed: readonly Work[]) => number | null,
  budget: { nodes: number },
  best: { value: number; placed: readonly Work[] | null },
): void {
  const step = (placed: readonly Work[], left: readonly (readonly Work[])[]): void => {
    const value = worth(placed);
    if (value === null || value >= best.value) return;
    if (left.length === 0) {
      best.value = value;
      best.placed = placed;
      return;
    }
    const [first, ...rest] = [...left].sort((a, b) => a.length - b.length);
    for (const work of first) {
      if (--budget.nodes < 0) throw new RangeError('too many combinations to try them all');
      const next = [...placed, work];
      if (!allowed(reading, next)) continue;
      const kept = rest.map((list) => list.filter((other) => allowed(reading, [work, other])));
      if (kept.every((list) => list.length > 0)) step(next, kept);
    }
  };
  step([], own);
}

/**
 * The exact optimum of both ranks by trying every branch, mode, crew and minute; null
 * where no plan exists. Exponential: for at most `maxActivities` activities and a
 * horizon of some forty minutes. Throws a RangeError where that does not suffice.
 */
export function bruteForce(problem: Problem, maxActivities = 6, nodes = 20_000): Optimum | null {
  if (problem.activities.length > maxActivities)
    throw new RangeError(`more than ${maxActivities} activities`);
  const budget = { nodes };
  const spaces = branchings(problem)
    .map((branches) => ({ branches, domain: domains(problem, branches) }))
    .filter(({ domain: [reading] }) => allowed(reading, []));
  const rank = (placed: readonly Work[]): [number, number] =>
    ranks(problem, finishesOf(problem, placed));

  const late = { value: Infinity, placed: null };
  for (const { domain } of spaces) least(...domain, (placed) => rank(placed)[0], budget, late);
  if (late.value === Infinity) return null;

  const cap = late.value + problem.tolerances[0];
  let plan: Plan | null = null;
  const done: { value: number; placed: readonly Work[] | null } = { value: Infinity, placed: null };
  for (const { branches, domain } of spaces) {
    const before = done.value;
    least(...domain, (placed) => (rank(placed)[0] > cap ? null : rank(placed)[1]), budget, done);
    if (done.value === before || done.placed === null) continue;
    plan = {
      placements: done.placed.map((work) => work.placement).sort((a, b) => a.activity - b.activity),
      branches,
      finishes: finishesOf(problem, done.placed),
      values: rank(done.placed),
    };
  }
  return plan && { lateness: late.value, finishes: done.value, plan };
}
