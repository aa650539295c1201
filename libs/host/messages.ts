import type { SearchState, SolveResult } from '#scheduling/model/plan.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';

/** What the worker thread is started with. Times are milliseconds of the epoch, on one clock with its parent. */
export interface Order {
  readonly problem: Problem;
  readonly seed: number;
  readonly iterations: number | null;
  readonly startedAt: number;
  readonly deadline: number | null;
  readonly warmStart: Plan | null;
  /** One cell: not 0 once the search is to stop. */
  readonly stop: Int32Array<SharedArrayBuffer>;
}

/** What the worker thread says. */
export type Report =
  | { readonly kind: 'progress'; readonly state: SearchState }
  | { readonly kind: 'result'; readonly result: SolveResult; readonly firstPlanMs: number | null };
