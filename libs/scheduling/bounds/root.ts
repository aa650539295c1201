import type { ProvedBound } from '../model/plan.ts';
import type { Compiled } from '../search/crew/compiled/compiled.ts';
import { crewHours } from './crew-hours/bound.ts';
import { analyse, type Analysis } from './critical-path.ts';
import { overloaded } from './compulsory.ts';
import { positiveCircle } from './cycles.ts';
import { leastDisturbance } from './disturbance.ts';
import { leastCost } from './least-cost.ts';
import { promise } from './promise.ts';

/** What is proved before any search. */
export interface RootProof {
  readonly analysis: Analysis;
  /** There is no plan; the bounds then say nothing. */
  readonly infeasible: boolean;
  /** By rank, four of them, without caps. */
  readonly bounds: readonly ProvedBound[];
}

const proved = (bound: number, proof: string): ProvedBound => ({ bound, caps: [], proof });

const nothing = proved(0, 'none');

/** Whether propagation, a circle of lags, or what is taken in every plan shows that there is no plan. */
export const isImpossible = (analysis: Analysis): boolean =>
  analysis.empty >= 0 ||
  analysis.deadChoice >= 0 ||
  positiveCircle(analysis.root, analysis.assumed) !== null ||
  overloaded(analysis);

/**
 * Bounds by critical path, least cost and what cannot stay as published, or a proof that there is
 * no plan: a few dozen milliseconds at 800 tasks. What takes longer is `createBounds`.
 */
export function firstRoot(compiled: Compiled): RootProof {
  const { problem } = compiled;
  const analysis = analyse(compiled);
  if (isImpossible(analysis))
    return { analysis, infeasible: true, bounds: [nothing, nothing, nothing, nothing] };
  const path = [0, 0];
  analysis.finishes.forEach((finish, r) => {
    path[0] += promise(problem, r, finish);
    path[1] += problem.refits[r].weight * finish;
  });
  const cost = leastCost(analysis);
  const disturbance = leastDisturbance(analysis);
  return {
    analysis,
    infeasible: false,
    bounds: [
      proved(path[0], 'critical-path'),
      proved(path[1], 'critical-path'),
      cost === 0 ? nothing : proved(cost, 'least-cost'),
      disturbance === 0 ? nothing : proved(disturbance, 'critical-path'),
    ],
  };
}

/** The same, and bounds by crew hours where they are better. */
export function proveRoot(compiled: Compiled): RootProof {
  const root = firstRoot(compiled);
  if (root.infeasible) return root;
  const hours = crewHours(root.analysis);
  const bounds = root.bounds.map((known, rank) =>
    rank < 2 && hours[rank] > known.bound ? proved(hours[rank], 'crew-hours') : known,
  );
  return { ...root, bounds };
}
