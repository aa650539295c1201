import { doubled } from '../../../propagation/literal.ts';

const FIRST = -0x3fffffff;

/**
 * Amounts over time, as segments that begin where any interval added since `clear` did or ended;
 * neighbours may be equally high. An interval costs O(log segments + segments moved and passed).
 */
export class Profile {
  from = new Int32Array(32);
  height = new Int32Array(32);
  count = 1;

  constructor() {
    this.clear();
  }

  clear(): void {
    this.from[0] = FIRST;
    this.height[0] = 0;
    this.count = 1;
  }

  /** Adds an amount, which may be less than 0, over [from, to). */
  add(from: number, to: number, amount: number): void {
    if (from >= to) return;
    const first = this.split(from);
    const end = this.split(to);
    for (let s = first; s < end; s++) this.height[s] += amount;
  }

  /** The segment that `t` is in. */
  at(t: number): number {
    const { from } = this;
    let low = 0;
    let high = this.count;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (from[middle] <= t) low = middle;
      else high = middle;
    }
    return low;
  }

  /** The greatest height in the segments that have something of [from, to). */
  highest(from: number, to: number): number {
    let most = 0;
    for (let s = this.at(from); s < this.count && this.from[s] < to; s++)
      if (this.height[s] > most) most = this.height[s];
    return most;
  }

  get peak(): number {
    const { height, count } = this;
    let most = 0;
    for (let s = 0; s < count; s++) if (height[s] > most) most = height[s];
    return most;
  }

  /** The segment that begins at `t`, made where there is none. */
  private split(t: number): number {
    const s = this.at(t);
    if (this.from[s] === t) return s;
    if (this.count === this.from.length) {
      this.from = doubled(this.from);
      this.height = doubled(this.height);
    }
    this.from.copyWithin(s + 2, s + 1, this.count);
    this.height.copyWithin(s + 2, s + 1, this.count);
    this.from[s + 1] = t;
    this.height[s + 1] = this.height[s];
    this.count++;
    return s + 1;
  }
}
