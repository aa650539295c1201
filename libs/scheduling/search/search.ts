import type { Plan, ProvedBound, SearchState } from '../model/plan.ts';

/** A running search: pure, resumable, the same for the same problem, seed and iterations. */
export interface Search {
  /**
   * Works for so many more iterations, unless done before, and shows where it stands. An iteration
   * is a fixed piece of work, counted and never timed, of at most some ten milliseconds, so that
   * whoever drives the search can stop it soon.
   */
  step(iterations: number): SearchState;
  /**
   * What other searches of the same problem have found and proved, between two steps: a plan that is
   * the best known (null: none), and bounds by rank. A search beats it, starts from it, or ignores it.
   * Called before with each plan, of whichever search, that gives the least value of some rank.
   */
  receive(plan: Plan | null, bounds: readonly ProvedBound[]): void;
  /**
   * The plans that give the least value of a rank, with the earlier ones within their caps, where
   * the best plan does not: within its tolerance a rank is given up for later ones, and it is these
   * plans that say how much of it. Not there: there are none.
   */
  leading?(): readonly Plan[];
  /**
   * The work so far in about microseconds, from counts and never from a clock, so that it is the
   * same everywhere. Not there: every iteration costs about the same.
   */
  effort?(): number;
}
