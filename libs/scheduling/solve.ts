import { bindingChains } from './explanation/chain.ts';
import { floats } from './explanation/floats.ts';
import { EXPLAINING, explainInfeasible } from './explanation/infeasible.ts';
import { justify } from './explanation/justify.ts';
import type { Plan, ProvedBound, RankBound, SearchState, SolveResult } from './model/plan.ts';
import type { Problem } from './model/problem.ts';
import type { Standing } from './search/portfolio/board.ts';
import { createPortfolio, type Portfolio } from './search/portfolio/portfolio.ts';

export interface SolveOptions {
  /** All chance comes from it. */
  readonly seed: number;
  /** Stop after so many iterations; without a limit `shouldStop` has to end it. */
  readonly iterations?: number;
  /** Asked between steps. */
  readonly shouldStop?: () => boolean;
  readonly onProgress?: (state: SearchState) => void;
  /** A plan to start from, perhaps of a slightly different problem. */
  readonly warmStart?: Plan | null;
}

/** Searchers for the problem, by its kind and size (`search/portfolio/roster.ts`). */
export function create(problem: Problem, seed: number, warmStart: Plan | null): Portfolio {
  return createPortfolio(problem, seed, warmStart);
}

/** The weighted time that the refits take, from when they could begin. */
function span(problem: Problem, plan: Plan): number {
  return problem.refits.reduce(
    (sum, { weight, release }, r) =>
      sum + weight * Math.max(0, plan.finishes[r] - Math.max(problem.now, release)),
    0,
  );
}

function rankBound(problem: Problem, plan: Plan, rank: number, proved: ProvedBound): RankBound {
  const value = plan.values[rank];
  const distance = Math.max(0, value - proved.bound);
  const whole = rank < 2 ? span(problem, plan) : value;
  return { ...proved, distance, gap: distance === 0 ? 0 : distance / Math.max(1, whole) };
}

/** The plan in which every wait has a reason, and these reasons. */
export type Reasons = Pick<SolveResult, 'chains' | 'floats'> & { readonly plan: Plan };

/** Of a plan that a search found: whatever can begin earlier at no cost does. */
export function reasonsOf(problem: Problem, found: Plan): Reasons {
  const plan = justify(problem, found);
  return { plan, chains: bindingChains(problem, plan), floats: floats(problem, plan) };
}

/**
 * The answer that a search came to, with its reasons: of the best plan found, or why there is none.
 * `shouldStop` ends the looking for fewer reasons; `reasons` are those of the state's plan.
 */
export function resultOf(
  problem: Problem,
  state: Standing,
  shouldStop: () => boolean = () => false,
  reasons: Reasons | null = state.plan && reasonsOf(problem, state.plan),
): SolveResult {
  const { plan, chains, floats: slack } = reasons ?? { plan: null, chains: [], floats: [] };
  const meets =
    plan !== null && state.bounds.every(({ bound }, rank) => plan.values[rank] <= bound);
  const status = meets ? 'optimal' : state.status;
  return {
    status,
    plan,
    bounds: plan ? state.bounds.map((proved, rank) => rankBound(problem, plan, rank, proved)) : [],
    chains,
    floats: slack,
    infeasibility:
      status === 'infeasible' ? explainInfeasible(problem, { ...EXPLAINING, shouldStop }) : null,
    iterations: state.iterations,
    foundAt: state.foundAt,
  };
}

/**
 * Solves until proved optimal, out of iterations or told to stop, and explains the best plan
 * found, or why there is none. Pure: the same problem, seed and iterations give the same result.
 */
export function solve(problem: Problem, options: SolveOptions): SolveResult {
  const { seed, iterations = Infinity, onProgress, warmStart = null } = options;
  const { shouldStop = () => false } = options;
  const search = create(problem, seed, warmStart);
  let state = search.step(0);
  while (!state.done && state.iterations < iterations && !shouldStop()) {
    // The first plan is shown as soon as it is there.
    const step = state.plan === null ? 1 : search.stride();
    state = search.step(Math.min(step, iterations - state.iterations));
    onProgress?.(state);
  }
  return resultOf(problem, state, shouldStop);
}
