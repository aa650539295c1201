/**
 * Use of all resources over time as a step function: segment s is [time[s], time[s + 1]),
 * with one row of use a segment. For generation schemes, which add and take away.
 */
export class Profile {
  private readonly capacity: Int32Array;
  private time: number[] = [0];
  private use: Int32Array[];

  constructor(capacity: Int32Array) {
    this.capacity = capacity;
    this.use = [new Int32Array(capacity.length)];
  }

  /** The segment that holds moment `t >= 0`. O(log segments). */
  private segmentAt(t: number): number {
    let low = 0;
    let high = this.time.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.time[middle] <= t) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** The first start >= `from` at which `demand` fits for `duration`. O(segments passed x resources). */
  earliest(from: number, duration: number, demand: Int32Array): number {
    if (duration === 0) return from;
    let start = from;
    for (
      let s = this.segmentAt(from);
      s < this.time.length && this.time[s] < start + duration;
      s++
    ) {
      if (!this.fits(s, demand)) start = this.time[s + 1];
    }
    return start;
  }

  private fits(s: number, demand: Int32Array): boolean {
    const use = this.use[s];
    for (let r = 0; r < demand.length; r++) if (use[r] + demand[r] > this.capacity[r]) return false;
    return true;
  }

  /** Adds `sign` (1 or -1) times the demand over [start, end). */
  change(start: number, end: number, demand: Int32Array, sign: number): void {
    if (start === end) return;
    const first = this.cut(start);
    const last = this.cut(end);
    for (let s = first; s < last; s++) {
      const use = this.use[s];
      for (let r = 0; r < demand.length; r++) use[r] += sign * demand[r];
    }
  }

  /** Makes a segment begin at `t`; gives it. */
  private cut(t: number): number {
    const s = this.segmentAt(t);
    if (this.time[s] === t) return s;
    this.time.splice(s + 1, 0, t);
    this.use.splice(s + 1, 0, this.use[s].slice());
    return s + 1;
  }
}
