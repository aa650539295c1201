import { lowerOf, upperOf, type Literals } from '../../../propagation/literal.ts';
import type { Trail } from '../../../propagation/trail.ts';
import { spanAfter, type Spans } from '../../crew/compiled/spans.ts';

/**
 * A use of a resource over [start, finish + tail): `amount`, times the variable `times` where
 * that is given (no less than 0). Only in the minutes of `hours`, where those are given.
 */
export interface Use {
  readonly start: number;
  readonly finish: number;
  readonly tail: number;
  readonly amount: number;
  readonly times: number | null;
  readonly hours: Spans | null;
}

/** From minute `from` on there are `capacity` units. */
export interface Step {
  readonly from: number;
  readonly capacity: number;
}

export const NONE = -1;

export const worksAt = (hours: Spans, t: number): boolean => {
  const i = spanAfter(hours, t);
  return i < hours.count && hours.starts[i] <= t;
};

/** The uses of a resource, as they stand by the bounds, and its capacity over time. */
export class Occupancy {
  readonly trail: Trail;
  readonly uses: readonly Use[];
  readonly steps: readonly Step[];
  /** The most there ever is. */
  readonly capacity: number;
  readonly start: Int32Array;
  readonly finish: Int32Array;
  readonly tail: Int32Array;
  readonly times: Int32Array;
  readonly amount: Int32Array;
  /** After `blockers`: the uses found. */
  readonly cover: Int32Array;

  constructor(trail: Trail, uses: readonly Use[], steps: readonly Step[]) {
    this.trail = trail;
    this.uses = uses;
    this.steps = steps;
    this.capacity = Math.max(...steps.map(({ capacity }) => capacity));
    this.start = Int32Array.from(uses, (use) => use.start);
    this.finish = Int32Array.from(uses, (use) => use.finish);
    this.tail = Int32Array.from(uses, (use) => use.tail);
    this.times = Int32Array.from(uses, (use) => use.times ?? NONE);
    this.amount = Int32Array.from(uses, (use) => use.amount);
    this.cover = new Int32Array(uses.length);
  }

  /** What use `k` takes at least, wherever it is there. */
  units(k: number): number {
    const times = this.times[k];
    return times === NONE ? this.amount[k] : this.amount[k] * this.trail.bound[lowerOf(times)];
  }

  /** Fills `cover` with uses other than `k` that take more than `room` at `t`; -1 if they do not. */
  blockers(t: number, k: number, room: number): number {
    const { cover, start, finish, tail } = this;
    const { bound } = this.trail;
    let size = 0;
    let excess = this.capacity - this.steps[this.stepAt(t)].capacity - room - 1;
    for (let o = 0; o < start.length; o++) {
      if (o === k || -bound[upperOf(start[o])] > t) continue;
      if (bound[lowerOf(finish[o])] + tail[o] <= t) continue;
      const units = this.units(o);
      if (units === 0) continue;
      const { hours } = this.uses[o];
      if (hours !== null && !worksAt(hours, t)) continue;
      cover[size++] = o;
      excess += units;
    }
    if (excess < 0) return -1;
    // Leave out what is not needed to exceed the room, the latest in the list first.
    for (let c = size - 1; c >= 0 && excess > 0; c--) {
      const units = this.units(cover[c]);
      if (units > excess) continue;
      excess -= units;
      cover[c] = cover[--size];
    }
    return size;
  }

  /** That the first so many of `cover` are there at `t`. */
  addCover(size: number, t: number, out: Literals): void {
    for (let c = 0; c < size; c++) {
      const k = this.cover[c];
      out.add(upperOf(this.start[k]), -t);
      out.add(lowerOf(this.finish[k]), t + 1 - this.tail[k]);
      this.addAmount(k, out);
    }
  }

  addAmount(k: number, out: Literals): void {
    const times = this.times[k];
    if (times !== NONE) out.add(lowerOf(times), this.trail.bound[lowerOf(times)]);
  }

  /** The earliest moment from `least` on, up to `t`, at which all that blocks `t`, and `k`, does so. */
  shiftedDown(size: number, k: number, t: number, least: number): number {
    const { bound } = this.trail;
    let from = Math.max(least, this.stepFrom(t));
    const own = this.uses[k].hours;
    if (own !== null) from = Math.max(from, own.starts[spanAfter(own, t)]);
    for (let c = 0; c < size; c++) {
      const o = this.cover[c];
      from = Math.max(from, -bound[upperOf(this.start[o])]);
      const { hours } = this.uses[o];
      if (hours !== null) from = Math.max(from, hours.starts[spanAfter(hours, t)]);
    }
    return Math.min(from, t);
  }

  /** The latest such moment up to `most`. */
  shiftedUp(size: number, k: number, t: number, most: number): number {
    const { bound } = this.trail;
    let to = Math.min(most, this.stepTo(t) - 1);
    const own = this.uses[k].hours;
    if (own !== null) to = Math.min(to, own.ends[spanAfter(own, t)] - 1);
    for (let c = 0; c < size; c++) {
      const o = this.cover[c];
      to = Math.min(to, bound[lowerOf(this.finish[o])] + this.tail[o] - 1);
      const { hours } = this.uses[o];
      if (hours !== null) to = Math.min(to, hours.ends[spanAfter(hours, t)] - 1);
    }
    return Math.max(to, t);
  }

  private stepAt(t: number): number {
    let i = this.steps.length - 1;
    while (i > 0 && this.steps[i].from > t) i--;
    return i;
  }

  private stepFrom(t: number): number {
    const i = this.stepAt(t);
    return i === 0 ? -0x3fffffff : this.steps[i].from;
  }

  private stepTo(t: number): number {
    const i = this.stepAt(t) + 1;
    return i < this.steps.length ? this.steps[i].from : 0x3fffffff;
  }
}
