import type { Plan, ProvedBound } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { isPure } from '../exact/pure.ts';
import type { Search } from '../search.ts';
import { boardOf, type Board, type Standing } from './board.ts';
import { deskOf, type Desk } from './desk.ts';
import { ledgerOf } from './ledger.ts';
import { rosterOf } from './roster.ts';
import { partsOf, strideOf, type Part } from './rounds.ts';
import { beginPart, type Running } from './running.ts';
import type { Limits, Seat } from './seat.ts';

/** Searchers of one problem that work in rounds; whatever any of them finds or proves counts. */
export interface Portfolio extends Pick<Search, 'step'> {
  step(iterations: number): Standing;
  /** Iterations that the searcher at work does in some milliseconds. */
  stride(): number;
}

/** Everything before the first round. */
export interface Opening {
  readonly desk: Desk;
  readonly board: Board;
}

const nothing: readonly ProvedBound[] = [0, 1, 2, 3].map(() => ({
  bound: 0,
  caps: [],
  proof: 'none',
}));

/** Where a search stands that was stopped before it began. */
export const unopened = ({ tolerances }: Problem): Standing =>
  boardOf(tolerances, nothing, false).standing(0, false);

export function openPortfolio(
  problem: Problem,
  seed: number,
  warm: Plan | null,
  seats: readonly Seat[],
  limits: Limits = {},
): Opening {
  const desk = deskOf(problem, seed, warm, seats, limits);
  const { bounds, infeasible } = isPure(problem)
    ? { bounds: nothing, infeasible: false }
    : desk.root();
  return { desk, board: boardOf(problem.tolerances, bounds, infeasible) };
}

/**
 * Fixed searchers that exchange the best plan and the bounds at the barrier between two rounds:
 * in round k each starts from what all had found by the end of round k - 1, taken in in the
 * searchers' order, and does a number of iterations that depends on counts of earlier rounds
 * alone. So the same plan comes out however many threads do a round; here one does it, one
 * searcher after the other. The problem is decided at the end of the part that decides it, and
 * searchers after that have no part in the round. Deterministic in seed and iterations.
 */
export function createPortfolio(
  problem: Problem,
  seed: number,
  warm: Plan | null,
  seats: readonly Seat[] = rosterOf(problem),
): Portfolio {
  const { desk, board } = openPortfolio(problem, seed, warm, seats);
  const ledger = ledgerOf(seats);
  const retired = new Set<number>();
  let round = 0;
  let parts: Part[] = [];
  let exchange = board.exchange();
  let running: Running | null = null;
  let iterations = 0;
  let over = board.settled;

  /** The next part, in a new round if this one is over; null if nobody has anything left to do. */
  const next = (): Running | null => {
    if (parts.length === 0) {
      exchange = board.exchange();
      parts = partsOf(seats, round, retired, Infinity, ledger, exchange.plan !== null);
      round += 1;
    }
    const part = parts.shift();
    return part === undefined ? null : beginPart(desk, part, exchange);
  };

  const close = ({ part, state, shown }: Running): void => {
    const last = shown();
    ledger.enter(part.seat, part.iterations, last.effort, board.take(last, iterations));
    if (state.done) retired.add(part.seat);
    running = null;
  };

  return {
    stride: () => (running === null ? 1 : strideOf(ledger.price(running.part.seat))),
    step(count) {
      for (let left = count; left > 0 && !over;) {
        running ??= next();
        if (running === null) {
          over = true;
          break;
        }
        const done = running.advance(left);
        iterations += done;
        left -= done;
        if (running.left === 0) close(running);
        over = board.settled;
      }
      if (running === null) return board.standing(iterations, over);
      return board.preview(running.shown(), iterations);
    },
  };
}
