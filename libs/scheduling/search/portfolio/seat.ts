import type { RootProof } from '../../bounds/root.ts';
import type { Plan } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import type { Compiled } from '../crew/compiled/compiled.ts';
import type { Search } from '../search.ts';

/** What a searcher may take. */
export interface Limits {
  /** Bytes of learned clauses; as many as it likes where not given. */
  readonly clauseBytes?: number;
}

/** What a searcher is made from. What is dear to make is made once in a thread, when asked for. */
export interface Materials {
  readonly problem: Problem;
  readonly seed: number;
  /** The best plan at the barrier before its first round. */
  readonly warm: Plan | null;
  readonly compiled: () => Compiled;
  readonly root: () => RootProof;
  readonly limits: Limits;
}

/**
 * A searcher's place in the portfolio. `cost` is what an iteration takes on a problem of this
 * size, in microseconds, as measured once: it turns a round's length into counts, so that no clock
 * is needed and the counts are the same everywhere. Where the searcher counts its effort, `cost` is
 * only what is thought at first.
 */
export interface Seat {
  readonly name: string;
  /** The first round it takes part in. */
  readonly from: number;
  /** Of a round's length. */
  readonly share: number;
  /** What it is there for shows at its end only: it keeps its share whatever it brings before. */
  readonly proves: boolean;
  /** Has nothing to do before there is a plan. */
  readonly needsPlan: boolean;
  readonly cost: number;
  readonly open: (materials: Materials) => Search;
}
