import type { Direction, Scheme } from './scheme.ts';

/** Bits of a finish that one round looks at, and the values they have. */
const BITS = 8;
const VALUES = 1 << BITS;

/**
 * Orders activities by falling finish: the list that generates in the other direction. Of equal
 * finishes the one that goes first in the other direction comes first.
 * Counting by eight bits at a time: O(count) a byte of the makespan.
 */
export class Sorter {
  private readonly count: number;
  private readonly order: readonly [Int32Array, Int32Array];
  private readonly tally = new Int32Array(VALUES);
  private readonly spare: Int32Array;

  constructor({ count, order }: Scheme) {
    this.count = count;
    this.order = order;
    this.spare = new Int32Array(count);
  }

  /** Writes the activities to `list[listAt …]`; `direction`, in which the finishes were generated. */
  sort(
    finish: Int32Array,
    makespan: number,
    direction: Direction,
    list: Int32Array,
    listAt: number,
  ): void {
    let rounds = 1;
    for (let rest = makespan >> BITS; rest > 0; rest >>= BITS) rounds++;
    let from = this.order[1 - direction];
    let fromAt = 0;
    // In turn to one array and the other, so that the last round writes to the list.
    for (let round = 0; round < rounds; round++) {
      const isToList = (rounds - round) % 2 === 1;
      const to = isToList ? list : this.spare;
      const toAt = isToList ? listAt : 0;
      const shift = round * BITS;
      const top = Math.min(VALUES - 1, makespan >> shift);
      this.scatter(finish, shift, top, from, fromAt, to, toAt);
      from = to;
      fromAt = toAt;
    }
  }

  /** One stable round by falling values, none above `top`, of the bits at `shift`. */
  private scatter(
    finish: Int32Array,
    shift: number,
    top: number,
    from: Int32Array,
    fromAt: number,
    to: Int32Array,
    toAt: number,
  ): void {
    const { count, tally } = this;
    tally.fill(0, 0, top + 1);
    for (let i = 0; i < count; i++) tally[(finish[i] >> shift) & (VALUES - 1)]++;
    let place = toAt;
    for (let value = top; value >= 0; value--) {
      const here = tally[value];
      tally[value] = place;
      place += here;
    }
    for (let k = 0; k < count; k++) {
      const i = from[fromAt + k];
      to[tally[(finish[i] >> shift) & (VALUES - 1)]++] = i;
    }
  }
}
