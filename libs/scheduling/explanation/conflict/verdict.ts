import { analyse } from '../../bounds/critical-path.ts';
import { isImpossible, proveRoot } from '../../bounds/root.ts';
import type { Constraint } from '../../model/constraint.ts';
import type { Problem } from '../../model/problem.ts';
import { without } from '../../model/without.ts';
import { compile } from '../../search/crew/compiled/compiled.ts';
import { crewSearch } from '../../search/crew/search/search.ts';
import { createExact } from '../../search/exact/exact.ts';
import { isPure } from '../../search/exact/pure.ts';
import type { Search } from '../../search/search.ts';
import { createWhole } from '../../search/whole/whole.ts';
import { restrict } from '../../model/restrict.ts';
import { constraintsOf, nameOf } from './subject.ts';

/** Whether some constraints have a plan: one was found, it is proved that there is none, or neither. */
export type Verdict = 'plan' | 'none' | 'open';

/** What may still be spent. */
export interface Budget {
  /** Propagations. */
  probes: number;
  /** Iterations of searches. */
  nodes: number;
  /** Whether all of it is as good as spent. */
  readonly shouldStop?: () => boolean;
}

const isSpent = ({ probes, shouldStop }: Budget): boolean => probes <= 0 || shouldStop?.() === true;

/** Iterations of one search at most. */
const NODES = 4_000;
/** Activities up to which the learning core is asked. */
const WHOLE = 64;
/** Decodes before a problem is looked through. */
const DECODES = 24;
const STEP = 64;

/** The problem with only some activities and only some constraints. */
export function part(
  problem: Problem,
  constraints: readonly Constraint[],
  activities: ReadonlySet<number>,
): Problem {
  const { problem: restricted, renamed } = restrict(problem, activities);
  const kept = new Set(constraints.flatMap((one) => renamed(one) ?? []).map(nameOf));
  const dropped = constraintsOf(restricted).filter((one) => !kept.has(nameOf(one)));
  return without(restricted, dropped);
}

/** Whether propagation shows that the problem has no plan. */
export function fails(problem: Problem, budget: Budget): boolean {
  if (isSpent(budget)) return false;
  budget.probes -= 1;
  return isImpossible(analyse(compile(problem)));
}

function searched(search: Pick<Search, 'step'>, most: number, budget: Budget): Verdict {
  let state = search.step(0);
  const limit = Math.min(most, budget.nodes);
  while (state.plan === null && !state.done && state.iterations < limit && !isSpent(budget))
    state = search.step(Math.min(STEP, limit - state.iterations));
  budget.nodes -= state.iterations;
  if (state.plan !== null) return 'plan';
  return state.status === 'infeasible' ? 'none' : 'open';
}

/** Decides by propagation, then by whichever searches take the problem. */
export function verdict(problem: Problem, budget: Budget): Verdict {
  if (isSpent(budget)) return 'open';
  budget.probes -= 1;
  if (problem.activities.length === 0) return 'plan';
  const compiled = compile(problem);
  const root = proveRoot(compiled);
  if (root.infeasible) return 'none';
  if (isPure(problem)) return searched(createExact(problem, 1, null), NODES, budget);
  const windows = root.analysis.domains;
  const crew = crewSearch(problem, 1, null, { compiled, windows, bounds: root.bounds });
  const found = searched(crew, DECODES, budget);
  if (found !== 'open') return found;
  if (problem.activities.length > WHOLE) return 'open';
  return searched(createWhole(problem, 1, null, root), NODES, budget);
}
