import type { SearchState } from '../model/plan.ts';

/** A running search: pure, resumable, the same for the same problem, seed and iterations. */
export interface Search {
  /** Works for so many more iterations, unless done before, and shows where it stands. */
  step(iterations: number): SearchState;
}
