import type { Packing } from './packing.ts';

/**
 * What is free over time, while a pass takes and gives back: a step function, for any number of
 * words and any length of time. Segment s is [time[s], time[s + 1]); in the last one, without end,
 * everything is free. O(segments passed x words) for a query, and O(segments behind it) more to
 * make a step. A cell a period is no quicker even for short times (ubo50, ubo100): the lags cost
 * more than the profile.
 */
export class EventProfile {
  private readonly duration: Int32Array;
  private readonly packing: Packing;
  private time: Int32Array;
  private free: Int32Array;
  private segments = 1;

  constructor(packing: Packing, duration: Int32Array) {
    this.duration = duration;
    this.packing = packing;
    const most = 2 * duration.length + 2;
    this.time = new Int32Array(most);
    this.free = new Int32Array(most * packing.words);
    this.reset();
  }

  /** Nothing is taken any more. */
  reset(): void {
    this.segments = 1;
    this.free.set(this.packing.capacity);
  }

  /** The first moment from `from` on at which `i` fits. */
  earliest(i: number, from: number): number {
    const { time } = this;
    const length = this.duration[i];
    if (length === 0) return from;
    let start = from;
    for (let s = this.segmentAt(from); s < this.segments && time[s] < start + length; s++) {
      if (!this.fits(s, i)) start = time[s + 1];
    }
    return start;
  }

  /** Takes what `i` asks from `at` on, where it fits. */
  take(i: number, at: number): void {
    this.change(i, at, -1);
  }

  /** Gives back what was taken so. */
  give(i: number, at: number): void {
    this.change(i, at, 1);
  }

  private change(i: number, at: number, sign: number): void {
    const { words, demand } = this.packing;
    const length = this.duration[i];
    if (length === 0) return;
    this.makeRoom();
    const first = this.cut(at);
    const last = this.cut(at + length);
    for (let s = first; s < last; s++) {
      for (let w = 0; w < words; w++) this.free[s * words + w] += sign * demand[i * words + w];
    }
  }

  private segmentAt(t: number): number {
    const { time } = this;
    let low = 0;
    let high = this.segments - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (time[middle] <= t) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  private fits(s: number, i: number): boolean {
    const { words, guard, demand } = this.packing;
    for (let w = 0; w < words; w++) {
      if (((this.free[s * words + w] - demand[i * words + w]) & guard) !== guard) return false;
    }
    return true;
  }

  /** Makes a segment begin at `t`; gives it. */
  private cut(t: number): number {
    const { time, free } = this;
    const s = this.segmentAt(t);
    if (time[s] === t) return s;
    const { words } = this.packing;
    time.copyWithin(s + 2, s + 1, this.segments);
    free.copyWithin((s + 1) * words, s * words, this.segments * words);
    time[s + 1] = t;
    this.segments++;
    return s + 1;
  }

  /** Steps that giving back has left over are dropped once they fill the arrays: at most two for each taken stay. */
  private makeRoom(): void {
    const { time, free } = this;
    const { words } = this.packing;
    if (this.segments + 2 <= time.length) return;
    let kept = 1;
    for (let s = 1; s < this.segments; s++) {
      let differs = false;
      for (let w = 0; w < words && !differs; w++) {
        differs = free[s * words + w] !== free[(kept - 1) * words + w];
      }
      if (!differs) continue;
      time[kept] = time[s];
      free.copyWithin(kept * words, s * words, (s + 1) * words);
      kept++;
    }
    this.segments = kept;
  }
}
