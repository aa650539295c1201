import { proveRoot, type RootProof } from './bounds/root.ts';
import { bindingChain } from './explanation/chain.ts';
import { floats } from './explanation/floats.ts';
import type { Plan, RankBound, SearchState, SolveResult } from './model/plan.ts';
import type { Problem } from './model/problem.ts';
import { compile, type Compiled } from './search/crew/compiled.ts';
import { leftShift } from './search/crew/left-shift.ts';
import { crewSearch } from './search/crew/search.ts';
import { createExact } from './search/exact/exact.ts';
import { isPure } from './search/exact/pure.ts';
import type { Search } from './search/search.ts';

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

const nothing = (problem: Problem): SearchState => ({
  status: 'infeasible',
  plan: null,
  bounds: [problem.horizon, problem.horizon],
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

function createCrew(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  compiled: Compiled,
  root: RootProof,
): Search {
  if (root.infeasibility) return { step: () => nothing(problem) };
  return crewSearch(problem, seed, warmStart, {
    compiled: narrowed(compiled, root),
    windows: root.analysis.domains,
    bounds: root.bounds,
  });
}

/** A search for the problem: exact where the problem is pure, by decodes otherwise. */
export function create(problem: Problem, seed: number, warmStart: Plan | null): Search {
  if (isPure(problem)) return createExact(problem, seed, warmStart);
  const compiled = compile(problem);
  return createCrew(problem, seed, warmStart, compiled, proveRoot(compiled));
}

/** (value - bound) over the weighted time that the refits take from their releases. */
function rankBound(
  problem: Problem,
  plan: Plan,
  rank: 0 | 1,
  bound: number,
  proof: string,
): RankBound {
  const value = plan.values[rank];
  const spans = problem.refits.reduce(
    (sum, { weight, release }, r) =>
      sum + weight * Math.max(0, plan.finishes[r] - Math.max(0, release)),
    0,
  );
  const gapMinutes = Math.max(0, value - bound);
  return {
    bound,
    cap: null,
    gap: gapMinutes === 0 ? 0 : gapMinutes / Math.max(1, spans),
    gapMinutes,
    proof,
  };
}

/**
 * Solves until proved optimal, out of iterations or told to stop, and explains the best plan
 * found. Pure: the same problem, seed and iterations give the same result.
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
  const root = pure ? null : proveRoot(compiled);
  const search = root
    ? createCrew(problem, seed, warmStart, compiled, root)
    : createExact(problem, seed, warmStart);
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
  const plan = state.plan && leftShift(compiled, state.plan);
  const proved =
    plan !== null && ([0, 1] as const).every((rank) => plan.values[rank] <= state.bounds[rank]);
  const status = proved ? 'optimal' : state.status;
  const proof = (rank: 0 | 1): string => (root ? root.proofs[rank] : 'search');
  return {
    status,
    plan,
    bounds: plan
      ? ([0, 1] as const).map((rank) =>
          rankBound(problem, plan, rank, state.bounds[rank], proof(rank)),
        )
      : [],
    chains: plan ? problem.refits.map((_, r) => bindingChain(problem, plan, r, compiled)) : [],
    floats: plan ? floats(problem, plan, compiled) : [],
    infeasibility: root?.infeasibility ?? null,
    iterations: state.iterations,
    foundAt,
  };
}
