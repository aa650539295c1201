import { analyse, type Analysis } from '../bounds/critical-path.ts';
import { isImpossible } from '../bounds/root.ts';
import type { Constraint } from '../model/constraint.ts';
import type { Infeasibility } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { compile } from '../search/crew/compiled/compiled.ts';
import { coneOf } from './conflict/cone.ts';
import { shrink } from './conflict/shrink.ts';
import { constraintsOf, nameOf, relevant } from './conflict/subject.ts';
import { tightGroups, within } from './conflict/tight.ts';
import { fails, part, verdict, type Budget, type Verdict } from './conflict/verdict.ts';

/** Propagations, and iterations of searches, spent on one explanation. */
export const EXPLAINING: Readonly<Budget> = { probes: 800, nodes: 60_000 };

const everything = (problem: Problem): Set<number> => new Set(problem.activities.keys());

/** Constraints that cannot all be met, with what shows it of fewer: propagation alone, or searches. */
interface Found {
  readonly constraints: readonly Constraint[];
  readonly fails: (kept: readonly Constraint[]) => boolean;
}

/** What fails by propagation alone: the constraints behind the clash if they do, else all; null if nothing does. */
function byPropagation(
  problem: Problem,
  all: readonly Constraint[],
  analysis: Analysis,
  budget: Budget,
): Found | null {
  const quick = (kept: readonly Constraint[]): boolean =>
    fails(part(problem, kept, relevant(problem, kept)), budget);
  if (!isImpossible(analysis)) return null;
  const cone = coneOf(analysis);
  if (cone === null) return quick(all) ? { constraints: all, fails: quick } : null;
  const near = all.filter((one) => {
    if (one.kind === 'lag') return cone.lags.has(one.lag);
    if (one.kind === 'builder' || one.kind === 'calendar') return true;
    return 'activity' in one ? cone.activities.has(one.activity) : true;
  });
  if (quick(near)) return { constraints: near, fails: quick };
  return quick(all) ? { constraints: all, fails: quick } : null;
}

/** What fails by search: of the activities with the least room to move, else of all. */
function bySearch(
  problem: Problem,
  all: readonly Constraint[],
  analysis: Analysis,
  budget: Budget,
): Found | null {
  for (const group of tightGroups(analysis)) {
    const inGroup = (kept: readonly Constraint[]): boolean => {
      const about = [...relevant(problem, kept)].filter((a) => group.has(a));
      return verdict(part(problem, kept, new Set(about)), budget) === 'none';
    };
    const near = within(problem, all, group);
    if (inGroup(near)) return { constraints: near, fails: inGroup };
  }
  const slow = (kept: readonly Constraint[]): boolean =>
    verdict(part(problem, kept, relevant(problem, kept)), budget) === 'none';
  return slow(all) ? { constraints: all, fails: slow } : null;
}

/** Leaves out what the searches show is not needed; the rest with what is known of each member. */
function refine(
  problem: Problem,
  found: readonly Constraint[],
  budget: Budget,
): { constraints: Constraint[]; irreducible: boolean } {
  let constraints = [...found];
  const ask = (kept: readonly Constraint[]): Verdict =>
    verdict(part(problem, kept, relevant(problem, kept)), budget);
  let irreducible = false;
  for (let again = true; again;) {
    again = false;
    irreducible = true;
    for (const one of constraints) {
      const rest = constraints.filter((other) => other !== one);
      const answer = ask(rest);
      if (answer === 'open') irreducible = false;
      if (answer !== 'none') continue;
      // What was needed beside this one may not be needed without it.
      constraints = rest;
      again = true;
      break;
    }
  }
  return { constraints, irreducible };
}

/** The fewest activities with which the constraints still fail, as far as is seen. */
function concerned(problem: Problem, constraints: readonly Constraint[], budget: Budget): number[] {
  const all = [...relevant(problem, constraints)].sort((a, b) => a - b);
  const still = (kept: readonly number[]): boolean =>
    verdict(part(problem, constraints, new Set(kept)), budget) === 'none';
  return shrink(all, still).sort((a, b) => a - b);
}

/**
 * Why a problem has no plan: constraints that cannot all be met within the horizon, whatever
 * is chosen. They are found by propagation, then by complete search where the problem that is
 * left of them is small, and made fewer as long as they still fail. `irreducible` only if a plan
 * was found without each of them, all others but these being dropped too. Horizon and choices stay
 * in force: the answer is the horizon alone where some work is too long for it by itself. Where
 * nothing is shown in the budget, all constraints are returned. Deterministic.
 */
export function explainInfeasible(
  problem: Problem,
  given: Readonly<Budget> = EXPLAINING,
): Infeasibility {
  // Half is kept for showing that nothing more can be left out.
  const half = { probes: Math.ceil(given.probes / 2), nodes: Math.ceil(given.nodes / 2) };
  const budget: Budget = { ...given, ...half };
  const all = constraintsOf(problem);
  const bare = analyse(compile(part(problem, [], everything(problem))));
  if (isImpossible(bare)) {
    const activities = bare.empty < 0 ? [] : [bare.empty];
    return { irreducible: true, constraints: [{ kind: 'horizon' }], activities };
  }
  const analysis = analyse(compile(problem));
  const found =
    byPropagation(problem, all, analysis, budget) ?? bySearch(problem, all, analysis, budget);
  if (found === null)
    return { irreducible: false, constraints: all, activities: [...everything(problem)] };
  const start = shrink(found.constraints, found.fails);
  budget.probes += half.probes;
  budget.nodes += half.nodes;
  const { constraints, irreducible } = refine(problem, start, budget);
  const order = new Map(all.map((one, index) => [nameOf(one), index]));
  constraints.sort((a, b) => (order.get(nameOf(a)) ?? 0) - (order.get(nameOf(b)) ?? 0));
  return { irreducible, constraints, activities: concerned(problem, constraints, budget) };
}
