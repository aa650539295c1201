import type { Infeasibility } from '../model/plan.ts';
import type { Compiled } from '../search/crew/compiled.ts';
import { crewHours } from './crew-hours/bound.ts';
import { analyse, type Analysis } from './critical-path.ts';
import { explain } from './infeasible.ts';

/** Which argument proves a bound of a rank. */
export type Proof = 'critical-path' | 'crew-hours';

/** What is proved before any search. */
export interface RootProof {
  readonly analysis: Analysis;
  /** Lower bounds of rank 1 and rank 2. */
  readonly bounds: readonly [number, number];
  readonly proofs: readonly [Proof, Proof];
  readonly infeasibility: Infeasibility | null;
}

/** Weighted lateness and weighted finishes if each refit finished at these minutes. */
function ranksOf(compiled: Compiled, finishes: readonly number[]): [number, number] {
  let late = 0;
  let sum = 0;
  compiled.problem.refits.forEach(({ due, weight }, r) => {
    if (due !== null) late += weight * Math.max(0, finishes[r] - due);
    sum += weight * finishes[r];
  });
  return [late, sum];
}

/** Bounds by critical path and crew hours, or a proof that there is no plan. */
export function proveRoot(compiled: Compiled): RootProof {
  const analysis = analyse(compiled);
  const infeasibility = explain(compiled, analysis);
  if (infeasibility)
    return { analysis, bounds: [0, 0], proofs: ['critical-path', 'critical-path'], infeasibility };
  const path = ranksOf(compiled, analysis.finishes);
  const hours = crewHours(compiled, analysis);
  const proof = (rank: 0 | 1): Proof => (hours[rank] > path[rank] ? 'crew-hours' : 'critical-path');
  return {
    analysis,
    bounds: [Math.max(path[0], hours[0]), Math.max(path[1], hours[1])],
    proofs: [proof(0), proof(1)],
    infeasibility,
  };
}
