import { check } from '#scheduling/checker/check.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { rankValues } from './data/ranks.ts';
import type { Verdict } from './oracle.ts';

type Optimum = Extract<Verdict, { kind: 'optimal' }>;

/** The problem whose later ranks may not worsen the earlier ones. */
export const strict = (problem: Problem): Problem => ({ ...problem, tolerances: [0, 0, 0] });

/** What the checker has against the oracle's own plan; its last two ranks the oracle does not know. */
function refused(problem: Problem, { plan, least }: Optimum): string[] {
  const values = rankValues(problem, plan.finishes);
  const found = check(problem, { ...plan, values: [...values, 0, 0] })
    .filter(({ kind, message }) => kind !== 'values' || !/^rank [34] /.test(message))
    .map(({ message }) => `the checker refuses the oracle's plan: ${message}`);
  const most = [least[0] + problem.tolerances[0], least[1]];
  if (values.some((value, r) => value > most[r]))
    found.push(`the oracle's plan is worth ${values.join(', ')}, more than ${most.join(', ')}`);
  return found;
}

/** What the engine says of the first two ranks against what they are. */
function ranks(
  { tolerances }: Problem,
  { least }: Optimum,
  { status, plan, bounds }: SolveResult,
): string[] {
  if (plan === null) return [`${status}, where a plan exists`];
  const found: string[] = [];
  const [late, done] = least;
  const tell = (rank: number, is: number): void => {
    const wanted = `${least[rank - 1]} (tolerance ${tolerances[rank - 1]})`;
    found.push(`rank ${rank} is ${is}, not ${wanted}`);
  };
  if (plan.values[0] < late || plan.values[0] > late + tolerances[0]) tell(1, plan.values[0]);
  else if (plan.values[1] < done || plan.values[1] > done + tolerances[1]) tell(2, plan.values[1]);
  least.forEach((value, r) => {
    const { bound, caps } = bounds[r];
    // A bound under tighter caps than the oracle had says nothing of what it found.
    const allowed = caps.every((cap, k) => cap >= least[k] + tolerances[k]);
    if (allowed ? bound > value : status === 'optimal')
      found.push(`rank ${r + 1} has the bound ${bound} under ${caps.join(', ')}, above ${value}`);
  });
  return found;
}

/** What contradicts the oracle in what the engine says of a problem, in words. */
export function disagreements(
  problem: Problem,
  verdict: Verdict,
  result: SolveResult,
): readonly string[] {
  const { status, plan } = result;
  const own = plan === null ? [] : check(problem, plan);
  const found = own.map(({ message }) => `the engine's plan is wrong: ${message}`);
  if (verdict.kind === 'infeasible' && status !== 'infeasible')
    found.push(`${status}, where no plan exists`);
  if (verdict.kind === 'optimal')
    found.push(...refused(problem, verdict), ...ranks(problem, verdict, result));
  return found;
}
