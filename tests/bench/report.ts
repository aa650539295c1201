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

/** Reports of one bench: a complete one, else the fuller, else the later. */
export function preferred(a: Report | undefined, b: Report): Report {
  if (a === undefined) return b;
  const rank = (one: Report): readonly [number, number] => [
    isComplete(one) && one.most === null ? 1 : 0,
    one.done / one.of,
  ];
  const [first, second] = [rank(a), rank(b)];
  if (first[0] !== second[0]) return first[0] > second[0] ? a : b;
  if (first[0] === 0 && first[1] !== second[1]) return first[1] > second[1] ? a : b;
  return a.to > b.to ? a : b;
}
