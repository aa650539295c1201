import type { Infeasibility } from '../model/plan.ts';
import type { Compiled } from '../search/crew/compiled.ts';
import type { Analysis } from './critical-path.ts';

/** Why propagation leaves no plan, or null where it leaves one open. */
export function explain(compiled: Compiled, analysis: Analysis): Infeasibility | null {
  if (analysis.empty < 0 && analysis.deadChoice < 0) return null;
  const { problem } = compiled;
  const activities =
    analysis.empty >= 0 ? [analysis.empty] : problem.choices[analysis.deadChoice].branches.flatMap((b) => b.activities);
  return {
    irreducible: false,
    activities,
    lags: [],
    reason: `${activities.map((a) => problem.activities[a].id).join(', ')} cannot be placed anywhere before minute ${String(problem.horizon)}`,
  };
}
