import type { Packing } from './packing.ts';
import type { Profile } from './profile.ts';

/** What is free in each period, in one word. */
export class PeriodProfile implements Profile {
  private readonly duration: Int32Array;
  private readonly demand: Int32Array;
  private readonly capacity: number;
  private readonly guard: number;
  private readonly free: Int32Array;
  /** Periods from here on are free. */
  private used = 0;

  constructor(packing: Packing, duration: Int32Array, horizon: number) {
    this.duration = duration;
    this.demand = packing.demand;
    this.capacity = packing.capacity[0];
    this.guard = packing.guard;
    const longest = duration.reduce((most, d) => Math.max(most, d), 0);
    this.free = new Int32Array(horizon + longest + 1).fill(this.capacity);
  }

  reset(): void {
    this.free.fill(this.capacity, 0, this.used);
    this.used = 0;
  }

  /** From the last period back; after one that is too full only what was not seen yet. */
  earliest(i: number, from: number): number {
    const { free, guard } = this;
    const length = this.duration[i];
    const asked = this.demand[i];
    let start = from;
    let seen = from;
    let end = from + length;
    for (let t = end - 1; t >= seen; t--) {
      if (((free[t] - asked) & guard) === guard) continue;
      start = t + 1;
      seen = end;
      end = start + length;
      t = end;
    }
    return start;
  }

  take(i: number, at: number): void {
    const { free } = this;
    const asked = this.demand[i];
    const end = at + this.duration[i];
    for (let t = at; t < end; t++) free[t] -= asked;
    if (end > this.used) this.used = end;
  }

  give(i: number, at: number): void {
    const { free } = this;
    const asked = this.demand[i];
    for (let t = at, end = at + this.duration[i]; t < end; t++) free[t] += asked;
  }
}
