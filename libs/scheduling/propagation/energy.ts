import { doubled, lowerOf, upperOf, type Literals } from './literal.ts';
import type { MakePropagator } from './network.ts';
import type { Propagator, Watch } from './propagator.ts';
import type { Supply } from './timetable.ts';
import type { Trail } from './trail.ts';

/** The energy rule of a resource. Every use has a positive duration and a variable of its own. */
export const energy =
  (supply: Supply): MakePropagator =>
  (trail, reason) =>
    new Energy(trail, reason, supply);

/**
 * One renewable resource of constant capacity by energy: in no window [begin, end) may the tasks
 * need more than capacity * length. Windows run from an earliest start to a latest finish; a task
 * counts with what it cannot keep out of the window, and one that would overfill the window by
 * starting as early as it can has to start later. Latest starts are treated as earliest starts of
 * the mirrored problem, in which a start s is -s - duration.
 *
 * Time-table edge-finding, after A. Schutt, T. Feydy, P. J. Stuckey, "Explaining time-table-edge-
 * finding propagation for the cumulative resource constraint", CPAIOR 2013, LNCS 7874, 234-250:
 * compulsory parts are taken from their profile, of the rest only tasks that start inside the
 * window count. O(n^2) a run. Explanations count every task's least overlap with the window, which
 * is never less than what was counted, and are weakened until nothing can be spared.
 */
class Energy implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 3;
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly capacity: number;
  private readonly count: number;
  private readonly x: Int32Array;
  private readonly duration: Int32Array;
  private readonly amount: Int32Array;
  /** The use of each variable, -1 without one. */
  private readonly useOf: Int32Array;
  private idle = true;

  /** Bounds of the present direction: earliest and latest start, earliest and latest finish. */
  private readonly est: Int32Array;
  private readonly lst: Int32Array;
  private readonly ect: Int32Array;
  private readonly lct: Int32Array;
  /** By direction: 4k + (0 est, 1 compulsory part begins, 2 it ends, 3 lct), kept in order of time. */
  private readonly events: readonly [Int32Array, Int32Array];
  private readonly time: Int32Array;
  private readonly byEst: Int32Array;
  private readonly byLct: Int32Array;
  /** Energy of the compulsory parts before est and lct of each use. */
  private readonly beforeEst: Float64Array;
  private readonly beforeLct: Float64Array;
  private readonly raised: Int32Array;
  private readonly raisedBy: Int32Array;

  /** Windows of the rises made, with the trail's size then; those rolled back are dropped. */
  private begins = new Int32Array(256);
  private ends = new Int32Array(256);
  private sizes = new Int32Array(256);
  private windows = 0;
  /** Scratch of explanations: the periods that each use is counted with. */
  private readonly share: Int32Array;

  constructor(trail: Trail, reason: number, { capacity, uses }: Supply) {
    this.trail = trail;
    this.reason = reason;
    this.capacity = capacity;
    const count = uses.length;
    this.count = count;
    this.x = Int32Array.from(uses, (u) => u.x);
    this.duration = Int32Array.from(uses, (u) => u.duration);
    this.amount = Int32Array.from(uses, (u) => u.amount);
    this.useOf = new Int32Array(trail.bound.length / 2).fill(-1);
    uses.forEach((u, k) => (this.useOf[u.x] = k));
    this.watches = uses.flatMap((u, k) => [
      { bound: lowerOf(u.x), datum: k },
      { bound: upperOf(u.x), datum: k },
    ]);
    this.est = new Int32Array(count);
    this.lst = new Int32Array(count);
    this.ect = new Int32Array(count);
    this.lct = new Int32Array(count);
    const all = Int32Array.from({ length: 4 * count }, (_, e) => e);
    this.events = [all, all.slice()];
    this.time = new Int32Array(4 * count);
    this.byEst = new Int32Array(count);
    this.byLct = new Int32Array(count);
    this.beforeEst = new Float64Array(count);
    this.beforeLct = new Float64Array(count);
    this.raised = new Int32Array(count);
    this.raisedBy = new Int32Array(count);
    this.share = new Int32Array(count);
  }

  notice(): boolean {
    const wasIdle = this.idle;
    this.idle = false;
    return wasIdle;
  }

  drop(): void {
    this.idle = true;
  }

  rewind(): void {
    while (this.windows > 0 && this.sizes[this.windows - 1] >= this.trail.size) this.windows--;
  }

  propagate(conflict: Literals): boolean {
    this.idle = true;
    if (this.trail.level === 0 && this.trail.size === 0) this.windows = 0;
    return this.run(0, conflict) && this.run(1, conflict);
  }

  private run(side: 0 | 1, conflict: Literals): boolean {
    this.read(side);
    this.sortEvents(this.events[side]);
    this.sweepProfile(this.events[side]);
    this.raisedBy.fill(-1);
    const first = this.windows;
    for (let e = this.count - 1; e >= 0; e--) {
      const last = this.byLct[e];
      if (e < this.count - 1 && this.lct[this.byLct[e + 1]] === this.lct[last]) continue;
      const begin = this.tryWindows(this.lct[last], this.beforeLct[last]);
      if (begin === NONE) continue;
      this.windows = first;
      this.explainWindow(side, begin, this.lct[last], -1, 0, conflict);
      return false;
    }
    return this.raiseAll(side);
  }

  private read(side: 0 | 1): void {
    const { x, duration, est, lst, ect, lct } = this;
    const bound = this.trail.bound;
    for (let k = 0; k < this.count; k++) {
      const b = 2 * x[k] + side;
      const d = duration[k];
      const shift = side === 0 ? 0 : d;
      est[k] = bound[b] - shift;
      lst[k] = -bound[b ^ 1] - shift;
      ect[k] = est[k] + d;
      lct[k] = lst[k] + d;
    }
  }

  private sortEvents(events: Int32Array): void {
    const { time, est, lst, ect, lct } = this;
    for (let p = 0; p < events.length; p++) {
      const e = events[p];
      const k = e >> 2;
      const kind = e & 3;
      const t = kind === 0 ? est[k] : kind === 1 ? lst[k] : kind === 2 ? ect[k] : lct[k];
      let q = p;
      for (; q > 0 && time[q - 1] > t; q--) {
        time[q] = time[q - 1];
        events[q] = events[q - 1];
      }
      time[q] = t;
      events[q] = e;
    }
  }

  private sweepProfile(events: Int32Array): void {
    const { time, lst, ect, amount } = this;
    let height = 0;
    let energy = 0;
    let starts = 0;
    let finishes = 0;
    for (let p = 0; p < events.length; p++) {
      const k = events[p] >> 2;
      if (p > 0) energy += height * (time[p] - time[p - 1]);
      switch (events[p] & 3) {
        case 0:
          this.byEst[starts++] = k;
          this.beforeEst[k] = energy;
          break;
        case 1:
          if (lst[k] < ect[k]) height += amount[k];
          break;
        case 2:
          if (lst[k] < ect[k]) height -= amount[k];
          break;
        default:
          this.byLct[finishes++] = k;
          this.beforeLct[k] = energy;
      }
    }
  }

  /**
   * All windows up to `end`, the latest begin first. Gives the begin of one that is overfull, or
   * NONE; notes where the task that would fill a window most may start at the earliest.
   */
  private tryWindows(end: number, beforeEnd: number): number {
    const { est, lst, ect, lct, amount, duration, byEst, beforeEst, capacity } = this;
    let energy = 0;
    let most = 0;
    let pushed = -1;
    for (let s = this.count - 1; s >= 0; s--) {
      const k = byEst[s];
      const begin = est[k];
      if (begin >= end) continue;
      const r = amount[k];
      if (lct[k] <= end) {
        energy += r * (lst[k] < ect[k] ? lst[k] - begin : duration[k]);
      } else {
        const free = end - (lst[k] > ect[k] ? lst[k] : ect[k]);
        if (free > 0) energy += r * free;
        const late = end > lst[k] ? end - lst[k] : 0;
        const more = r * ((ect[k] < end ? ect[k] : end) - begin - late);
        if (more > most) {
          most = more;
          pushed = k;
        }
      }
      if (s > 0 && est[byEst[s - 1]] === begin) continue;
      const left = capacity * (end - begin) - energy - (beforeEnd - beforeEst[k]);
      if (left < 0) return begin;
      if (most > left) this.push(pushed, begin, end, left);
    }
    return NONE;
  }

  /** The window has `left` energy left, use `k` counted as late as can be. */
  private push(k: number, begin: number, end: number, left: number): void {
    const own = this.amount[k] * Math.max(0, end - this.lst[k]);
    const start = end - Math.floor((left + own) / this.amount[k]);
    const before = this.raisedBy[k];
    if (before >= 0 && this.raised[k] >= start) return;
    this.raised[k] = start;
    if (before >= 0) {
      this.begins[before] = begin;
      this.ends[before] = end;
      return;
    }
    if (this.windows === this.begins.length) this.grow();
    this.begins[this.windows] = begin;
    this.ends[this.windows] = end;
    this.raisedBy[k] = this.windows++;
  }

  private raiseAll(side: 0 | 1): boolean {
    for (let k = 0; k < this.count; k++) {
      const window = this.raisedBy[k];
      if (window < 0) continue;
      const b = 2 * this.x[k] + side;
      const v = this.raised[k] + (side === 0 ? 0 : this.duration[k]);
      this.sizes[window] = this.trail.size;
      if (!this.trail.raise(b, v, this.reason, window)) return false;
    }
    return true;
  }

  private grow(): void {
    this.begins = doubled(this.begins);
    this.ends = doubled(this.ends);
    this.sizes = doubled(this.sizes);
  }

  explain(b: number, v: number, detail: number, out: Literals): void {
    const k = this.useOf[b >> 1];
    const side = (b & 1) as 0 | 1;
    const start = v - (side === 0 ? 0 : this.duration[k]);
    this.explainWindow(side, this.begins[detail], this.ends[detail], k, start, out);
  }

  /**
   * True literals by which [begin, end) is overfull: without `pushed` (-1), or if it starts before
   * `start` while not before what the last literal says.
   */
  private explainWindow(
    side: 0 | 1,
    begin: number,
    end: number,
    pushed: number,
    start: number,
    out: Literals,
  ): void {
    this.read(side);
    const { est, lst, ect, duration, amount, share } = this;
    let own = 0;
    let excess = -this.capacity * (end - begin) - 1;
    for (let k = 0; k < this.count; k++) {
      if (k === pushed) {
        const early = Math.min(ect[k], end) - Math.max(est[k], begin);
        const late = Math.min(start - 1 + duration[k], end) - Math.max(start - 1, begin);
        own = Math.min(early, late);
        excess += amount[k] * own;
        share[k] = 0;
        continue;
      }
      const overlap = Math.min(duration[k], end - begin, ect[k] - begin, end - lst[k]);
      share[k] = Math.max(0, overlap);
      excess += amount[k] * share[k];
    }
    if (excess < 0) throw new Error('the window is not overfull');
    excess = this.spare(side, begin, end, excess);
    for (let k = 0; k < this.count; k++) {
      if (share[k] === 0) continue;
      const shift = side === 0 ? 0 : duration[k];
      const b = 2 * this.x[k] + side;
      out.add(b, begin + share[k] - duration[k] + shift);
      out.add(b ^ 1, share[k] - end - shift);
    }
    if (pushed < 0) return;
    own -= Math.floor(excess / amount[pushed]);
    const shift = side === 0 ? 0 : duration[pushed];
    out.add(2 * this.x[pushed] + side, begin + own - duration[pushed] + shift);
  }

  /** Lessens the shares of tasks that are not where they are for good; gives the excess left. */
  private spare(side: 0 | 1, begin: number, end: number, excess: number): number {
    const { amount, share } = this;
    let rest = excess;
    for (let k = this.count - 1; k >= 0 && rest > 0; k--) {
      if (share[k] === 0 || amount[k] * share[k] > rest) continue;
      if (this.isForGood(side, k, begin, end)) continue;
      rest -= amount[k] * share[k];
      share[k] = 0;
    }
    for (let k = this.count - 1; k >= 0 && rest > 0; k--) {
      const spared = Math.floor(rest / amount[k]);
      if (share[k] <= spared || spared === 0 || this.isForGood(side, k, begin, end)) continue;
      share[k] -= spared;
      rest -= amount[k] * spared;
    }
    return rest;
  }

  /** Whether the share of use `k` follows from root facts. */
  private isForGood(side: 0 | 1, k: number, begin: number, end: number): boolean {
    const { trail, share, duration } = this;
    const shift = side === 0 ? 0 : duration[k];
    const b = 2 * this.x[k] + side;
    return (
      trail.entryOf(b, begin + share[k] - duration[k] + shift) < 0 &&
      trail.entryOf(b ^ 1, share[k] - end - shift) < 0
    );
  }
}

/** No window: no time is as small. */
const NONE = -0x80000000;
