import type { Infeasibility } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { Compiled } from '../../compile/compile.ts';

const isFrozen = ({ activities }: Problem, a: number): boolean =>
  activities[a].fixed?.kind === 'frozen';

/**
 * Links whose windows nobody can keep any more, though they may still be open: each leads from work that is
 * done or going on to work that waits, and is a member of a contradiction. Without any one of them
 * there would be a plan for the rest of it. None where that was not shown, or where a moment, a crew or an
 * order that was set stands in it: what is to give way then is not for the planner to say.
 */
export function hopelessLinks(
  { problem, map }: Pick<Compiled, 'problem' | 'map'>,
  { irreducible, constraints }: Infeasibility,
): string[] {
  if (!irreducible) return [];
  // A crew that was set is a demand for as many people, too.
  const isSet = constraints.some((one) =>
    one.kind === 'lag'
      ? problem.lags[one.lag].kind === 'order'
      : (one.kind === 'fixed' || one.kind === 'crew') &&
        problem.activities[one.activity].fixed?.kind === 'set',
  );
  if (isSet) return [];
  const links = constraints.flatMap((one) => {
    if (one.kind !== 'lag') return [];
    const { bound, from, to } = problem.lags[one.lag];
    const runs = bound === 'close' && isFrozen(problem, from) && !isFrozen(problem, to);
    return runs && map.lags[one.lag] !== '' ? [map.lags[one.lag]] : [];
  });
  return [...new Set(links)];
}
