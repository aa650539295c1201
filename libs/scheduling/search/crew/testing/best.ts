import { proveRoot } from '../../../bounds/root.ts';
import type { Placement, Plan } from '../../../model/plan.ts';
import type { Problem } from '../../../model/problem.ts';
import { compile } from '../compiled/compiled.ts';
import { crewSearch, type CrewSearch } from '../search/search.ts';

/** A crew search from what is proved at the root. */
export function searchFor(of: Problem, seed: number, warm: Plan | null = null): CrewSearch {
  const compiled = compile(of);
  const { analysis, bounds } = proveRoot(compiled);
  return crewSearch(of, seed, warm, { compiled, windows: analysis.domains, bounds });
}

/** The best plan after some decodes. */
export function bestOf(of: Problem, decodes = 300, warm: Plan | null = null): Plan {
  const { plan } = searchFor(of, 1, warm).step(decodes);
  if (plan === null) throw new Error('no plan');
  return plan;
}

/** The placement of an activity. */
export function at(plan: Plan, activity: number): Placement {
  const found = plan.placements.find((one) => one.activity === activity);
  if (!found) throw new Error(`activity ${activity} is absent`);
  return found;
}
