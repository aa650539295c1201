import type { Plan, ProvedBound, SearchState } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { incumbent } from './incumbent.ts';
import type { Search } from './search.ts';

/** Decodes before the complete search begins, so that it has a plan to beat. */
const HEAD_START = 96;
/** Of so many iterations after that one is a decode and the rest are nodes. */
const ROUND = 8;

const tighter = (a: ProvedBound, b: ProvedBound): ProvedBound =>
  b.bound > a.bound || (b.bound === a.bound && b.caps.length < a.caps.length) ? b : a;

/**
 * Two searches of one problem in turn, counted in iterations: one that finds plans quickly and
 * one that decides in the end. Whatever either finds or proves counts.
 */
export function together(
  problem: Problem,
  finder: Search,
  decider: (warm: Plan | null) => Search,
): Search {
  const best = incumbent(problem.tolerances);
  let second: Search | null = null;
  let found: SearchState = finder.step(0);
  let decided: SearchState | null = null;
  let iterations = 0;

  const take = (state: SearchState): void => {
    const { plan } = state;
    if (plan !== null) best.offer(plan.values, () => plan);
  };

  const state = (): SearchState => {
    const settled = decided?.status === 'optimal' || decided?.status === 'infeasible';
    const done = settled || found.done;
    const proof = decided;
    const bounds =
      proof === null ? found.bounds : found.bounds.map((own, r) => tighter(own, proof.bounds[r]));
    if (settled && decided !== null) return { ...decided, bounds, iterations, done };
    const status = found.done ? found.status : best.plan === null ? 'unknown' : 'feasible';
    return { status, plan: best.plan, bounds, iterations, done };
  };

  return {
    step(count) {
      for (let k = 0; k < count; k += 1) {
        if (state().done) break;
        iterations += 1;
        if (iterations <= HEAD_START || iterations % ROUND === 0) {
          found = finder.step(1);
          take(found);
          continue;
        }
        second ??= decider(best.plan);
        decided = second.step(1);
        take(decided);
      }
      return state();
    },
  };
}
