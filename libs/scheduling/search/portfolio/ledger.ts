import type { Seat } from './seat.ts';

/** What the searchers have cost and brought in the rounds so far, all by counts. */
export interface Ledger {
  /** What an iteration of the searcher costs now, in about microseconds. */
  price(seat: number): number;
  /** What the searcher gets of a round's length now. */
  share(seat: number): number;
  /** A part is over: its iterations, the searcher's effort in all, and whether anything came of it. */
  enter(seat: number, iterations: number, effort: number | null, brought: boolean): void;
}

/** Of its share, what a searcher keeps after each round that brought nothing; and at least. */
const FADE = 0.8;
const LEAST = 0.25;

/**
 * Prices follow the effort counted in the last rounds, and shares what came of it: whoever betters a
 * plan or a bound has the whole of its share in the next round, and less and less without; before
 * that it has the least. Searchers that prove keep theirs, for of a proof there is nothing to be seen
 * until it is there.
 */
export function ledgerOf(seats: readonly Seat[]): Ledger {
  const prices = seats.map(({ cost }) => cost);
  const known = seats.map(() => 0);
  const weights = Float64Array.from(seats, ({ proves }) => (proves ? 1 : LEAST));
  return {
    price: (seat) => prices[seat],
    share: (seat) => seats[seat].share * weights[seat],
    enter(seat, iterations, effort, brought) {
      if (effort !== null && iterations > 0) {
        const latest = Math.max(1, (effort - known[seat]) / iterations);
        prices[seat] = (prices[seat] + latest) / 2;
        known[seat] = effort;
      }
      if (seats[seat].proves) return;
      weights[seat] = brought ? 1 : Math.max(LEAST, FADE * weights[seat]);
    },
  };
}
