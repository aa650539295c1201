import type { Ledger } from './ledger.ts';
import type { Seat } from './seat.ts';

/** So many iterations of one searcher; not whole where a limit leaves it fewer than its due. */
export interface Part {
  readonly seat: number;
  readonly iterations: number;
  readonly whole: boolean;
}

/** Lengths of the first and of the longest round, in microseconds as `Seat.cost` counts them. */
const FIRST = 2_000;
const LONGEST = 400_000;
/** What is found early is told early; later on a barrier should cost little. */
const GROWTH = 1.6;
/** Between two looks at whether to stop. */
const LOOK = 4_000;

const roundLength = (round: number): number => Math.min(LONGEST, FIRST * GROWTH ** round);

/** The searcher's iterations in a round that it takes part in. */
const iterationsOf = (seat: number, round: number, ledger: Ledger): number =>
  Math.max(1, Math.round((roundLength(round) * ledger.share(seat)) / ledger.price(seat)));

/**
 * What is to be done in a round, in the searchers' order: `most` iterations at most, of which the
 * last searcher that gets any may get fewer than its due. `planned`: there is a plan. Empty: nobody
 * has a part in it.
 */
export function partsOf(
  seats: readonly Seat[],
  round: number,
  retired: ReadonlySet<number>,
  most: number,
  ledger: Ledger,
  planned: boolean,
): Part[] {
  let left = most;
  const mayWork = (seat: Seat, index: number): boolean =>
    !retired.has(index) && (planned || !seat.needsPlan);
  // Where nobody else is left, those who would join later join now.
  const first = seats.reduce(
    (least, seat, index) => (mayWork(seat, index) ? Math.min(least, seat.from) : least),
    Infinity,
  );
  return seats.flatMap((seat, index) => {
    if (left <= 0 || seat.from > Math.max(round, first) || !mayWork(seat, index)) return [];
    const due = iterationsOf(index, round, ledger);
    const iterations = Math.min(left, due);
    left -= iterations;
    return [{ seat: index, iterations, whole: iterations === due }];
  });
}

/** Iterations that a searcher may do before somebody looks again whether to stop. */
export const strideOf = (price: number): number => Math.max(1, Math.floor(LOOK / price));

/** The first round of those after which a portfolio of one searcher has worked so long. */
export function roundAfter(microseconds: number): number {
  let round = 0;
  for (let worked = 0; worked < microseconds; round += 1) worked += roundLength(round);
  return round;
}

/** The first rounds that an easy problem does not come to: decided by then by whoever is first, or joins soon. */
export const SOON = roundAfter(4_000);
export const LATER = roundAfter(60_000);
