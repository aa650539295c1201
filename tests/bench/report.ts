import type { Figure, Table } from './bench.ts';
import type { Machine } from './machine.ts';

/** What a run of a bench came to. */
export interface Report {
  readonly bench: string;
  readonly about: string;
  readonly command: string;
  readonly done: number;
  readonly of: number;
  /** Hash of the engine of the last rows. */
  readonly engine: string;
  /** Every commit that rows were made at, separated by blanks. */
  readonly commits: string;
  readonly from: string;
  readonly to: string;
  /** Seconds beneath the bench's own limits; null: none. */
  readonly most: number | null;
  readonly machine: Machine;
  readonly figures: readonly Figure[];
  readonly table: Table | null;
}

export const isComplete = ({ done, of }: Report): boolean => done === of;

/** The share of a bench from which a run counts as one of the present engine. */
const ENOUGH = 0.1;

/**
 * Reports of one bench: one of the present engine (its hash) over a tenth of the bench or more, then a
 * complete one, else the fuller, else the later.
 */
export function preferred(a: Report | undefined, b: Report, present?: string): Report {
  if (a === undefined) return b;
  const rank = (one: Report): readonly number[] => {
    const share = one.done / one.of;
    const whole = isComplete(one) && one.most === null;
    return [Number(one.engine === present && share >= ENOUGH), Number(whole), whole ? 1 : share];
  };
  const [first, second] = [rank(a), rank(b)];
  const k = first.findIndex((value, at) => value !== second[at]);
  if (k >= 0) return first[k] > second[k] ? a : b;
  return a.to > b.to ? a : b;
}
