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
 * Bounds by critical path, crew hours, least cost and what cannot stay as published, or a proof
 * that there is no plan.
 */
export function proveRoot(compiled: Compiled): RootProof {
  const { problem } = compiled;
  const analysis = analyse(compiled);
  if (isImpossible(analysis))
    return { analysis, infeasible: true, bounds: [nothing, nothing, nothing, nothing] };
  const path = [0, 0];
  analysis.finishes.forEach((finish, r) => {
    path[0] += promise(problem, r, finish);
    path[1] += problem.refits[r].weight * finish;
  });
  const hours = crewHours(analysis);
  const timed = ([0, 1] as const).map((rank) =>
    hours[rank] > path[rank]
      ? proved(hours[rank], 'crew-hours')
      : proved(path[rank], 'critical-path'),
  );
  const cost = leastCost(analysis);
  const disturbance = leastDisturbance(analysis);
  return {
    analysis,
    infeasible: false,
    bounds: [
      ...timed,
      cost === 0 ? nothing : proved(cost, 'least-cost'),
      disturbance === 0 ? nothing : proved(disturbance, 'critical-path'),
    ],
  };
}
