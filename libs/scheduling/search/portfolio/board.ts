import type { Plan, ProvedBound, SearchState } from '../../model/plan.ts';
import { incumbent, type Incumbent } from '../incumbent.ts';

/** Where all searchers together stand; `foundAt` is the iteration by which the plan was known. */
export interface Standing extends SearchState {
  readonly foundAt: number;
}

/** What is handed to every searcher at a barrier. */
export interface Exchange {
  readonly plan: Plan | null;
  /** As `Search.leading`, of all searchers. */
  readonly leading: readonly Plan[];
  readonly bounds: readonly ProvedBound[];
}

/** What a searcher shows, with its `leading` plans and its `effort` (null: it does not count it). */
export interface Shown {
  readonly state: SearchState;
  readonly leading: readonly Plan[];
  readonly effort: number | null;
}

/** What all searchers have found and proved. */
export interface Board {
  /** Whether the problem is decided: proved optimal or proved to have no plan. */
  readonly settled: boolean;
  exchange(): Exchange;
  /**
   * Takes in what a searcher shows at the end of its part, `iterations` in all being done by then;
   * true where the best plan, a plan that leads in a rank, or a bound is better for it.
   */
  take(shown: Shown, iterations: number): boolean;
  standing(iterations: number, done: boolean): Standing;
  /** As if what a searcher shows in the middle of its part were taken in. */
  preview(shown: Shown, iterations: number): Standing;
}

const covers = ({ caps }: ProvedBound, best: Incumbent): boolean =>
  caps.every((cap, rank) => cap >= best.cap(rank));

/**
 * The bound that says more: one that holds for the plans still of interest before one that does
 * not, then the higher, then the one under fewer caps. A cap rises again only where an earlier rank
 * gets better; searchers cap a rank once it is proved, so that a bound that holds for the plans of
 * interest goes on doing so.
 */
function tighter(a: ProvedBound, b: ProvedBound, best: Incumbent): ProvedBound {
  const mine = covers(a, best);
  if (mine !== covers(b, best)) return mine ? a : b;
  if (a.bound !== b.bound) return a.bound > b.bound ? a : b;
  if (a.caps.length !== b.caps.length) return a.caps.length < b.caps.length ? a : b;
  return a.proof === 'none' ? b : a;
}

/** Whether a searcher has decided the whole problem. */
export const isDecided = ({ status }: SearchState): boolean =>
  status === 'optimal' || status === 'infeasible';

function offer(best: Incumbent, leading: readonly Plan[], plan: Plan | null): void {
  for (const one of [...leading, ...(plan === null ? [] : [plan])])
    best.offer(one.values, () => one);
}

/** The bounds of whoever has decided the problem, or equal ones that hold for more plans. */
const decided = (known: readonly ProvedBound[], theirs: readonly ProvedBound[]): ProvedBound[] =>
  theirs.map((own, rank) => {
    const { bound, caps } = known[rank];
    return bound === own.bound && caps.length < own.caps.length ? known[rank] : own;
  });

/** `bounds`: what is known before any search. */
export function boardOf(
  tolerances: readonly number[],
  bounds: readonly ProvedBound[],
  infeasible: boolean,
): Board {
  const best = incumbent(tolerances);
  let known = [...bounds];
  let foundAt = 0;
  let settled: SearchState['status'] | null = infeasible ? 'infeasible' : null;

  const merged = (more: readonly ProvedBound[], within: Incumbent): ProvedBound[] =>
    known.map((own, rank) => tighter(own, more[rank], within));

  const allProved = (): boolean =>
    best.plan !== null &&
    known.every((own, rank) => best.least[rank] <= own.bound && covers(own, best));

  const standing = (iterations: number, done: boolean): Standing => {
    const sofar = best.plan === null ? 'unknown' : 'feasible';
    return {
      status: settled ?? sofar,
      plan: best.plan,
      bounds: known,
      iterations,
      done: done || settled !== null,
      foundAt,
    };
  };

  return {
    get settled() {
      return settled !== null;
    },
    exchange: () => ({ plan: best.plan, leading: best.leading, bounds: known }),
    take({ state, leading }, iterations) {
      const { plan: before, leading: led } = best;
      const proved = known;
      offer(best, leading, state.plan);
      if (best.plan !== before) foundAt = iterations;
      known = isDecided(state) ? decided(known, state.bounds) : merged(state.bounds, best);
      if (isDecided(state)) settled = state.status;
      else if (allProved()) settled = 'optimal';
      return (
        best.plan !== before ||
        best.leading.some((plan) => !led.includes(plan)) ||
        known.some(({ bound }, rank) => bound > proved[rank].bound)
      );
    },
    standing,
    preview({ state, leading }, iterations) {
      const both = incumbent(tolerances);
      offer(both, best.leading, best.plan);
      offer(both, leading, state.plan);
      return {
        status: both.plan === null ? 'unknown' : 'feasible',
        plan: both.plan,
        bounds: merged(state.bounds, both),
        iterations,
        done: false,
        foundAt: both.plan === best.plan ? foundAt : iterations,
      };
    },
  };
}
