import type { SearchState } from '../../model/plan.ts';
import { isDecided, type Exchange, type Shown } from './board.ts';
import type { Desk } from './desk.ts';
import type { Part } from './rounds.ts';

/** A searcher in the middle of its part of a round. */
export interface Running {
  readonly part: Part;
  /** Iterations yet to be done; 0 at once where the problem is decided. */
  readonly left: number;
  readonly state: SearchState;
  readonly decided: boolean;
  /** What the searcher shows. */
  readonly shown: () => Shown;
  /** Does at most so many, and tells how many count as done. */
  advance(iterations: number): number;
  /** What is left is not worth the memory that it takes: the searcher is let go. */
  drop(): void;
}

/**
 * Begins a part. A searcher that has nothing more to do without having decided anything lets the
 * rest of its iterations go by uncounted by itself, so that what comes after it in the round does not
 * depend on when that was.
 */
export function beginPart(desk: Desk, part: Part, exchange: Exchange): Running {
  let state = desk.begin(part.seat, exchange);
  let left = isDecided(state) ? 0 : part.iterations;
  return {
    part,
    get left() {
      return left;
    },
    get state() {
      return state;
    },
    get decided() {
      return isDecided(state);
    },
    shown: () => desk.shown(part.seat),
    drop() {
      desk.drop(part.seat);
      state = desk.step(part.seat, 0);
    },
    advance(iterations) {
      const count = Math.min(iterations, left);
      const before = state.iterations;
      if (!state.done) state = desk.step(part.seat, count);
      if (isDecided(state)) {
        left = 0;
        return Math.min(count, state.iterations - before);
      }
      left -= count;
      return count;
    },
  };
}
