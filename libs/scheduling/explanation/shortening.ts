import type { Constraint } from '../model/constraint.ts';
import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { bindingChains } from './chain.ts';
import { eased, easingOf, keepsPlans, type Easing } from './easing.ts';
import { justify } from './justify.ts';

/**
 * A plan for the problem, from one of the same problem or of one that was less eased, with the same
 * effort each time; null if it found none.
 */
export type Replan = (problem: Problem, plan: Plan) => Plan | null;

/** What easing one constraint was found to save. */
export interface Lever {
  readonly constraint: Constraint;
  readonly easing: Easing;
  /** Minutes by which each refit finishes earlier; below 0: later, for the sake of another. */
  readonly earlier: readonly number[];
  /** By how much ranks 1 and 2 fall: weighted lateness and weighted finishes, in minutes. */
  readonly lateness: number;
  readonly finishes: number;
}

/** Constraints asked about at most, those that hold the longest first. */
const MOST = 24;

/** The constraints on the binding chains: those of the refit asked about, then those that hold the longest. */
function suspects(problem: Problem, plan: Plan, asked: number | null): Constraint[] {
  const held = new Map<string, { constraint: Constraint; own: boolean; minutes: number }>();
  for (const { refit, links } of bindingChains(problem, plan)) {
    let since = Math.max(problem.now, problem.refits[refit].release);
    for (const { reason, until } of links) {
      const key = JSON.stringify(reason);
      const entry = held.get(key) ?? { constraint: reason, own: false, minutes: 0 };
      entry.own ||= refit === asked;
      entry.minutes += problem.refits[refit].weight * Math.max(0, until - since);
      held.set(key, entry);
      since = Math.max(since, until);
    }
  }
  return [...held.values()]
    .toSorted((a, b) => Number(b.own) - Number(a.own) || b.minutes - a.minutes)
    .map(({ constraint }) => constraint)
    .filter((constraint) => easingOf(problem, constraint) !== null)
    .slice(0, MOST);
}

const better = (a: Plan | null, b: Plan): Plan =>
  a !== null && (a.values[0] - b.values[0] || a.values[1] - b.values[1]) < 0 ? a : b;

/**
 * What would shorten the plan most: each constraint on the binding chains eased by itself, and how
 * much earlier the refits were then found to finish, best first. With `refit`, that one's chain is
 * looked at first and its finish counts; otherwise all of them, lateness before finishes. What
 * `replan` gains without any easing is not counted. A saving is what was found: there may be more to
 * gain, and easing two at once may give more than both. What saves nothing is left out. Costs a
 * `replan` and passes of `justify` for each of at most `MOST` constraints, and one more.
 */
export function shortening(
  problem: Problem,
  plan: Plan,
  replan: Replan,
  refit: number | null = null,
): readonly Lever[] {
  // Without tolerances: what is gained in time is not to be given away for money.
  const strict: Problem = { ...problem, tolerances: [0, 0, 0] };
  const before = better(replan(strict, plan), plan);
  const levers = suspects(problem, before, refit).flatMap((constraint): Lever[] => {
    const easing = easingOf(problem, constraint);
    if (easing === null) return [];
    const other = eased(strict, constraint);
    const found = replan(other, before);
    const after = keepsPlans(constraint) ? better(found, justify(other, before)) : found;
    if (after === null) return [];
    const lever: Lever = {
      constraint,
      easing,
      earlier: before.finishes.map((finish, r) => finish - after.finishes[r]),
      lateness: before.values[0] - after.values[0],
      finishes: before.values[1] - after.values[1],
    };
    const saves =
      refit === null
        ? lever.lateness > 0 || (lever.lateness === 0 && lever.finishes > 0)
        : lever.earlier[refit] > 0;
    return saves ? [lever] : [];
  });
  return levers.toSorted((a, b) =>
    refit === null
      ? b.lateness - a.lateness || b.finishes - a.finishes
      : b.earlier[refit] - a.earlier[refit],
  );
}
