import { lowerOf, upperOf, type Literals } from './literal.ts';
import type { MakePropagator } from './network.ts';
import type { Propagator, Watch } from './propagator.ts';
import type { Trail } from './trail.ts';

/**
 * A task's use of the resource: `amount` units over [start, start + duration), start being variable
 * `x`, which no other use of the resource has.
 */
export interface Use {
  readonly x: number;
  readonly duration: number;
  readonly amount: number;
}

/** A resource with the tasks that use it. */
export interface Supply {
  readonly capacity: number;
  readonly uses: readonly Use[];
}

/** A resource's propagator, for a network. */
export const timetable =
  (supply: Supply): MakePropagator =>
  (trail, reason) =>
    new Timetable(trail, reason, supply);

/**
 * One renewable resource of constant capacity. The compulsory part of a task is
 * [latest start, earliest finish); their profile may not exceed the capacity, and a task may
 * not start where it would.
 *
 * Time-table propagation with pointwise explanations after A. Schutt, T. Feydy, P. J. Stuckey,
 * M. G. Wallace, "Explaining the cumulative propagator", Constraints 16 (2011) 250-282: every
 * push is justified by one moment that the task cannot cover.
 * Profile: O(uses) when the order of its events has not changed; filtering a task: O(segments
 * it passes). No array over time. Explaining: O(uses).
 */
class Timetable implements Propagator {
  readonly cost = 2;
  readonly watches: readonly Watch[];
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly capacity: number;
  private readonly x: Int32Array;
  private readonly duration: Int32Array;
  private readonly amount: Int32Array;

  /** Events: use k begins (2k) and ends (2k + 1) its part; kept in order of time between runs. */
  private readonly event: Int32Array;
  private readonly time: Int32Array;
  /** The profile: segment s is [from[s], from[s + 1]) at height[s]; the last height is 0. */
  private readonly from: Int32Array;
  private readonly height: Int32Array;
  private segments = 0;
  private peak = 0;
  /** The part of each use inside the profile; empty if begin >= end. */
  private readonly partBegin: Int32Array;
  private readonly partEnd: Int32Array;

  private readonly changed: Int32Array;
  private readonly isChanged: Uint8Array;
  private changes = 0;
  /** Parts have grown since the last run: other tasks must be looked at, too. */
  private grown = true;
  /** The profile is that of the present bounds or weaker. */
  private valid = false;
  /** Scratch of explanations: the uses that cover a moment. */
  private readonly cover: Int32Array;

  constructor(trail: Trail, reason: number, { capacity, uses }: Supply) {
    this.trail = trail;
    this.reason = reason;
    this.watches = uses.flatMap(({ x }, datum) => [
      { bound: lowerOf(x), datum },
      { bound: upperOf(x), datum },
    ]);
    this.capacity = capacity;
    const count = uses.length;
    this.x = Int32Array.from(uses, (u) => u.x);
    this.duration = Int32Array.from(uses, (u) => u.duration);
    this.amount = Int32Array.from(uses, (u) => u.amount);
    this.event = Int32Array.from({ length: 2 * count }, (_, k) => k);
    this.time = new Int32Array(2 * count);
    this.from = new Int32Array(2 * count + 1);
    this.height = new Int32Array(2 * count + 1);
    this.partBegin = new Int32Array(count);
    this.partEnd = new Int32Array(count);
    this.changed = new Int32Array(count);
    this.isChanged = new Uint8Array(count);
    this.cover = new Int32Array(count);
  }

  /** After a rise of a bound of use `k`. True if the resource was idle and must now be run. */
  notice(k: number): boolean {
    const bound = this.trail.bound;
    const x = this.x[k];
    if (-bound[upperOf(x)] < bound[lowerOf(x)] + this.duration[k]) this.grown = true;
    if (this.isChanged[k] !== 0) return false;
    this.isChanged[k] = 1;
    this.changed[this.changes++] = k;
    return this.changes === 1;
  }

  /** After bounds fell. */
  rewind(): void {
    this.valid = false;
  }

  /** Drops what was noticed since the last run, after a conflict. */
  drop(): void {
    for (let c = 0; c < this.changes; c++) this.isChanged[this.changed[c]] = 0;
    this.changes = 0;
    this.grown = false;
  }

  /** Filters what `notice` gathered. False on conflict; an overload is then in `overload`. */
  propagate(overload: Literals): boolean {
    const { grown, isChanged, changed } = this;
    if (grown || !this.valid) {
      this.buildProfile();
      if (this.peak > this.capacity) {
        this.explainOverload(overload);
        return false;
      }
    }
    if (grown) {
      if (!this.filterNearby()) return false;
    } else {
      for (let c = 0; c < this.changes; c++) if (!this.filter(changed[c])) return false;
    }
    for (let c = 0; c < this.changes; c++) isChanged[changed[c]] = 0;
    this.grown = false;
    this.changes = 0;
    return true;
  }

  /** Tasks that have changed, and others where the changed parts lie under one of their ends. */
  private filterNearby(): boolean {
    const { x, duration, partBegin, partEnd, changed } = this;
    const bound = this.trail.bound;
    let begin = 0x7fffffff;
    let end = -0x7fffffff;
    for (let c = 0; c < this.changes; c++) {
      const k = changed[c];
      if (partBegin[k] >= partEnd[k]) continue;
      if (partBegin[k] < begin) begin = partBegin[k];
      if (partEnd[k] > end) end = partEnd[k];
    }
    for (let k = 0; k < x.length; k++) {
      if (this.isChanged[k] !== 0) {
        if (!this.filter(k)) return false;
        continue;
      }
      if (this.peak + this.amount[k] <= this.capacity) continue;
      const first = bound[lowerOf(x[k])];
      const last = -bound[upperOf(x[k])];
      if (first === last) continue;
      if (first < end && begin < first + duration[k] && !this.filterLower(k)) return false;
      if (last < end && begin < last + duration[k] && !this.filterUpper(k)) return false;
    }
    return true;
  }

  private buildProfile(): void {
    const { x, duration, event, time, partBegin, partEnd } = this;
    const bound = this.trail.bound;
    for (let k = 0; k < x.length; k++) {
      partBegin[k] = -bound[upperOf(x[k])];
      partEnd[k] = bound[lowerOf(x[k])] + duration[k];
    }
    for (let p = 0; p < event.length; p++) {
      const e = event[p];
      const k = e >> 1;
      // An empty part stays where it was in the order.
      let t = time[p];
      if (partBegin[k] < partEnd[k]) t = (e & 1) === 0 ? partBegin[k] : partEnd[k];
      let q = p;
      for (; q > 0 && time[q - 1] > t; q--) {
        time[q] = time[q - 1];
        event[q] = event[q - 1];
      }
      time[q] = t;
      event[q] = e;
    }
    this.sweep();
    this.valid = true;
  }

  private sweep(): void {
    const { event, time, from, height, amount, partBegin, partEnd } = this;
    let segments = 0;
    let level = 0;
    let peak = 0;
    for (let p = 0; p < event.length; p++) {
      const k = event[p] >> 1;
      if (partBegin[k] >= partEnd[k]) continue;
      if (segments === 0 || from[segments - 1] !== time[p]) from[segments++] = time[p];
      level += (event[p] & 1) === 0 ? amount[k] : -amount[k];
      height[segments - 1] = level;
    }
    for (let s = 0; s < segments; s++) if (height[s] > peak) peak = height[s];
    this.segments = segments;
    this.peak = peak;
  }

  private filter(k: number): boolean {
    if (this.peak + this.amount[k] <= this.capacity) return true;
    const bound = this.trail.bound;
    const x = this.x[k];
    if (bound[lowerOf(x)] === -bound[upperOf(x)]) return true;
    return this.filterLower(k) && this.filterUpper(k);
  }

  /** Height of segment `s` without use `k`'s own part. */
  private others(s: number, k: number): number {
    const own = this.partBegin[k] <= this.from[s] && this.from[s] < this.partEnd[k];
    return own ? this.height[s] - this.amount[k] : this.height[s];
  }

  private filterLower(k: number): boolean {
    const { from, segments } = this;
    const room = this.capacity - this.amount[k];
    const b = lowerOf(this.x[k]);
    const duration = this.duration[k];
    let start = this.trail.bound[b];
    let s = 0;
    while (s < segments - 1 && from[s + 1] <= start) s++;
    while (s < segments - 1 && from[s] < start + duration) {
      if (this.height[s] > room && this.others(s, k) > room) {
        const moment = Math.min(from[s + 1], start + duration) - 1;
        start = moment + 1;
        if (!this.trail.raise(b, start, this.reason, moment)) return false;
        if (start < from[s + 1]) continue;
      }
      s++;
    }
    return true;
  }

  private filterUpper(k: number): boolean {
    const { from, segments } = this;
    const room = this.capacity - this.amount[k];
    const b = upperOf(this.x[k]);
    const duration = this.duration[k];
    let start = -this.trail.bound[b];
    let s = segments - 2;
    while (s >= 0 && from[s] >= start + duration) s--;
    while (s >= 0 && from[s + 1] > start) {
      if (this.height[s] > room && this.others(s, k) > room) {
        const moment = Math.max(from[s], start);
        start = moment - duration;
        if (!this.trail.raise(b, -start, this.reason, moment)) return false;
        if (start >= from[s]) continue;
      }
      s--;
    }
    return true;
  }

  /**
   * Why (b, v): task `b >> 1` could not cover `moment`, in the state before. The moment is
   * then shifted, within the parts that block it, to where least is asked of the task itself.
   */
  explain(b: number, v: number, moment: number, out: Literals): void {
    const k = this.x.indexOf(b >> 1);
    const size = this.blockers(moment, k, this.capacity - this.amount[k]);
    const bound = this.trail.bound;
    if ((b & 1) === 0) {
      let t = v - 1;
      for (let c = 0; c < size; c++) t = Math.max(t, -bound[upperOf(this.x[this.cover[c]])]);
      out.add(b, t - this.duration[k] + 1);
      this.addCover(size, t, out);
    } else {
      let t = this.duration[k] - v;
      for (let c = 0; c < size; c++) t = Math.min(t, this.earliestFinish(this.cover[c]) - 1);
      out.add(b, -t);
      this.addCover(size, t, out);
    }
  }

  private explainOverload(out: Literals): void {
    let s = 0;
    while (this.height[s] <= this.capacity) s++;
    const size = this.blockers(this.from[s], -1, this.capacity);
    out.clear();
    this.addCover(size, this.from[s], out);
  }

  private earliestFinish(k: number): number {
    return this.trail.bound[lowerOf(this.x[k])] + this.duration[k];
  }

  private addCover(size: number, moment: number, out: Literals): void {
    for (let c = 0; c < size; c++) {
      const k = this.cover[c];
      out.add(lowerOf(this.x[k]), moment - this.duration[k] + 1);
      out.add(upperOf(this.x[k]), -moment);
    }
  }

  /** Fills `cover` with uses other than `k` whose parts cover `moment` and need more than `room`. */
  private blockers(moment: number, k: number, room: number): number {
    const { cover, amount } = this;
    const bound = this.trail.bound;
    let size = 0;
    let excess = -room - 1;
    for (let o = 0; o < this.x.length; o++) {
      const x = this.x[o];
      if (o === k || -bound[upperOf(x)] > moment || this.earliestFinish(o) <= moment) continue;
      cover[size++] = o;
      excess += amount[o];
    }
    // Leave out what is not needed to exceed the room, the latest starters first.
    for (let c = size - 1; c >= 0 && excess > 0; c--) {
      if (amount[cover[c]] > excess) continue;
      excess -= amount[cover[c]];
      cover[c] = cover[--size];
    }
    return size;
  }
}
