import type { Plan, ProvedBound, SolveResult } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import type { Shown, Standing } from '#scheduling/search/portfolio/board.ts';
import type { Part } from '#scheduling/search/portfolio/rounds.ts';
import type { Signals } from './watch.ts';

/** What the first thread of a run is started with. Times are milliseconds of the epoch. */
export interface Order {
  readonly role: 'first';
  readonly problem: Problem;
  readonly seed: number;
  readonly iterations: number | null;
  readonly startedAt: number;
  readonly deadline: number | null;
  readonly warmStart: Plan | null;
  readonly threads: number;
  /** Megabytes for each thread, and for all together; null: no limit. */
  readonly memoryMB: number | null;
  readonly allMB: number | null;
  readonly signals: Signals;
  /** What an earlier first thread had found when its memory was full: to be explained, no more. */
  readonly found: Standing | null;
}

/** What a thread is started with that leads one run after another: each `Order` is a message. */
export interface KeptOrder {
  readonly role: 'kept';
}

/** What the first thread says to whoever asked for the run. */
export type Report =
  /** Before which no refit can be finished, minutes. */
  | { readonly kind: 'earliest'; readonly finishes: readonly number[] }
  | { readonly kind: 'progress'; readonly state: Standing }
  /** In the middle of the search: what the result is if no better plan than the one told last is found. */
  | { readonly kind: 'draft'; readonly result: SolveResult }
  | { readonly kind: 'result'; readonly result: SolveResult };

/** What each further thread is started with. */
export interface LaneOrder extends Pick<
  Order,
  'problem' | 'seed' | 'warmStart' | 'memoryMB' | 'allMB' | 'signals'
> {
  readonly role: 'further';
}

/** A thread's parts of a round, and what all knew when it began; no plan or plans: as the round before. */
export interface RoundOrder {
  readonly parts: readonly Part[];
  readonly plan: Plan | null;
  readonly leading: readonly Plan[] | null;
  readonly bounds: readonly ProvedBound[];
}

/** What came of a part, without the plans that the receiver has already. */
export interface Finding extends Shown {
  readonly seat: number;
  /** Iterations that count as done. */
  readonly used: number;
  /** Stopped before the end of the searcher's share of the round, by a signal or a limit. */
  readonly cut: boolean;
}
