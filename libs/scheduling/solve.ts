import { proveRoot, type RootProof } from './bounds/root.ts';
import { bindingChain } from './explanation/chain.ts';
import { floats } from './explanation/floats.ts';
import { explainInfeasible } from './explanation/infeasible.ts';
import { justify } from './explanation/justify.ts';
import type { Plan, ProvedBound, RankBound, SearchState, SolveResult } from './model/plan.ts';
import type { Problem } from './model/problem.ts';
import { completeSearch } from './search/complete/search.ts';
import { isSmall } from './search/complete/small.ts';
import { compile, type Compiled } from './search/crew/compiled/compiled.ts';
import { crewSearch } from './search/crew/search/search.ts';
import { createExact } from './search/exact/exact.ts';
import { isPure } from './search/exact/pure.ts';
import type { Search } from './search/search.ts';
import { together } from './search/together.ts';

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

/** Iterations between two looks at `shouldStop`: some milliseconds. */
const STEP = 16;

const nothing = (bounds: readonly ProvedBound[]): SearchState => ({
  status: 'infeasible',
  plan: null,
  bounds,
  iterations: 0,
  done: true,
});

/** The branches that propagation has not ruled out. */
function narrowed(compiled: Compiled, { analysis }: RootProof): Compiled {
  const branches = analysis.assumed.possible.map((possible) =>
    [...possible].flatMap((ok, b) => (ok === 1 ? [b] : [])),
  );
  return { ...compiled, branches };
}

/** What a problem with people, windows or choices needs: bounds first, then plans, then decisions. */
function createCrew(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  compiled: Compiled,
  root: RootProof,
): Search {
  if (root.infeasible) return { step: () => nothing(root.bounds) };
  const crew = crewSearch(problem, seed, warmStart, {
    compiled: narrowed(compiled, root),
    windows: root.analysis.domains,
    bounds: root.bounds,
  });
  if (!isSmall(problem)) return crew;
  return together(problem, crew, (warm) => completeSearch(problem, warm));
}

/**
 * A search for the problem: the learning core where it is pure, otherwise decodes, and beside
 * them a complete search where it is small.
 */
export function create(problem: Problem, seed: number, warmStart: Plan | null): Search {
  if (isPure(problem)) return createExact(problem, seed, warmStart);
  const compiled = compile(problem);
  return createCrew(problem, seed, warmStart, compiled, proveRoot(compiled));
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

/**
 * Solves until proved optimal, out of iterations or told to stop, and explains the best plan
 * found, or why there is none. Pure: the same problem, seed and iterations give the same result.
 */
export function solve(problem: Problem, options: SolveOptions): SolveResult {
  const {
    seed,
    iterations = Infinity,
    shouldStop = () => false,
    onProgress,
    warmStart = null,
  } = options;
  const pure = isPure(problem);
  const compiled = compile(problem);
  const search = pure
    ? createExact(problem, seed, warmStart)
    : createCrew(problem, seed, warmStart, compiled, proveRoot(compiled));
  let state = search.step(0);
  let foundAt = 0;
  while (!state.done && state.iterations < iterations && !shouldStop()) {
    const before = state;
    // The first plan is shown as soon as it is there.
    const step = before.plan === null ? 1 : STEP;
    state = search.step(Math.min(step, iterations - state.iterations));
    if (state.plan !== before.plan) foundAt = state.iterations;
    onProgress?.(state);
  }
  // Whatever can begin earlier at no cost does, so that every wait of the plan has a reason.
  const plan = state.plan && justify(problem, state.plan);
  const meets =
    plan !== null && state.bounds.every(({ bound }, rank) => plan.values[rank] <= bound);
  const status = meets ? 'optimal' : state.status;
  return {
    status,
    plan,
    bounds: plan ? state.bounds.map((proved, rank) => rankBound(problem, plan, rank, proved)) : [],
    chains: plan ? problem.refits.map((_, r) => bindingChain(problem, plan, r)) : [],
    floats: plan ? floats(problem, plan) : [],
    infeasibility: status === 'infeasible' ? explainInfeasible(problem) : null,
    iterations: state.iterations,
    foundAt,
  };
}
