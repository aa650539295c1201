import { lowerOf, upperOf, type Literals } from '../../../propagation/literal.ts';
import type { Propagator, Watch } from '../../../propagation/propagator.ts';
import type { Trail } from '../../../propagation/trail.ts';
import { spanAfter, type Spans } from '../../crew/compiled/spans.ts';
import { firstIn, lastIn } from './inside.ts';

/**
 * A use of the resource over [start, finish + tail): `amount`, times the variable `times` where
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

interface UsageOf {
  readonly steps: readonly Step[];
  readonly uses: readonly Use[];
  /** The start of work that is absent. */
  readonly absent: number;
}

const NONE = -1;

/**
 * One renewable resource whose uses have a start, a finish and an amount that are variables; work
 * that is absent starts beyond every moment. What a use takes for certain in [latest start,
 * earliest finish) forms a profile; where that leaves too little, a use either starts later or has
 * ended, and one that is there for certain takes less.
 *
 * The time-table rule of A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, "Explaining the
 * cumulative propagator", Constraints 16 (2011) 250-282, with pauses after S. Kreter, A. Schutt,
 * P. J. Stuckey, Constraints 22 (2017) 432-462. Every conclusion is told by one moment t: "ends
 * after t, and others leave too little at t, so it starts after t". With finishes as variables no
 * explanation speaks of durations. O(parts log parts + uses * segments passed) a run.
 */
export class Usage implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 2;
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly uses: readonly Use[];
  private readonly steps: readonly Step[];
  private readonly absent: number;
  private readonly capacity: number;
  private readonly start: Int32Array;
  private readonly finish: Int32Array;
  private readonly tail: Int32Array;
  private readonly times: Int32Array;
  private readonly amount: Int32Array;
  /** Uses of each start or finish variable. */
  private readonly usesOf: ReadonlyMap<number, readonly number[]>;

  /** Events as time * 2^21 + what they are; the profile they make. */
  private event = new Float64Array(64);
  private delta = new Int32Array(64);
  private events = 0;
  private from = new Int32Array(65);
  private height = new Int32Array(65);
  private segments = 0;
  private peak = 0;
  private readonly begin: Int32Array;
  private readonly end: Int32Array;
  private readonly sure: Int32Array;
  /** What a use could take at most. */
  private readonly most: Int32Array;
  private readonly cover: Int32Array;
  private stale = false;

  constructor(trail: Trail, reason: number, { steps, uses, absent }: UsageOf) {
    this.trail = trail;
    this.reason = reason;
    this.uses = uses;
    this.steps = steps;
    this.absent = absent;
    this.capacity = Math.max(...steps.map(({ capacity }) => capacity));
    this.start = Int32Array.from(uses, (use) => use.start);
    this.finish = Int32Array.from(uses, (use) => use.finish);
    this.tail = Int32Array.from(uses, (use) => use.tail);
    this.times = Int32Array.from(uses, (use) => use.times ?? NONE);
    this.amount = Int32Array.from(uses, (use) => use.amount);
    this.begin = new Int32Array(uses.length);
    this.end = new Int32Array(uses.length);
    this.sure = new Int32Array(uses.length);
    this.cover = new Int32Array(uses.length);
    this.most = Int32Array.from(uses, ({ amount, times }) =>
      times === null ? amount : amount * -trail.bound[upperOf(times)],
    );
    const usesOf = new Map<number, number[]>();
    uses.forEach((use, k) => {
      for (const x of [use.start, use.finish, ...(use.times === null ? [] : [use.times])])
        usesOf.set(x, [...(usesOf.get(x) ?? []), k]);
    });
    this.usesOf = usesOf;
    this.watches = uses.flatMap(({ start, finish, times }) =>
      [
        lowerOf(start),
        upperOf(start),
        lowerOf(finish),
        upperOf(finish),
        ...(times === null ? [] : [lowerOf(times)]),
      ].map((bound) => ({ bound, datum: 0 })),
    );
  }

  notice(): boolean {
    if (this.stale) return false;
    this.stale = true;
    return true;
  }

  propagate(conflict: Literals): boolean {
    this.stale = false;
    this.buildProfile();
    if (this.peak > this.capacity) {
      this.explainOverload(conflict);
      return false;
    }
    for (let k = 0; k < this.start.length; k++) if (!this.filter(k)) return false;
    return true;
  }

  private units(k: number): number {
    const times = this.times[k];
    return times === NONE ? this.amount[k] : this.amount[k] * this.trail.bound[lowerOf(times)];
  }

  private buildProfile(): void {
    const { begin, end, sure, start, finish, tail } = this;
    const { bound } = this.trail;
    this.events = 0;
    for (let k = 0; k < start.length; k++) {
      begin[k] = -bound[upperOf(start[k])];
      end[k] = Math.min(bound[lowerOf(finish[k])] + tail[k], this.absent);
      sure[k] = this.units(k);
      if (begin[k] >= end[k] || sure[k] === 0) continue;
      const { hours } = this.uses[k];
      if (hours === null) this.add(begin[k], end[k], sure[k]);
      else
        for (let i = spanAfter(hours, begin[k]); i < hours.count && hours.starts[i] < end[k]; i++)
          this.add(Math.max(begin[k], hours.starts[i]), Math.min(end[k], hours.ends[i]), sure[k]);
    }
    if (this.steps.length > 1)
      this.steps.forEach(({ from, capacity }, i) => {
        const to = i + 1 < this.steps.length ? this.steps[i + 1].from : 0x3fffffff;
        if (capacity < this.capacity) this.add(from, to, this.capacity - capacity);
      });
    this.sweep();
  }

  private add(from: number, to: number, amount: number): void {
    if (this.events + 2 > this.event.length) {
      const event = new Float64Array(this.event.length * 2);
      const delta = new Int32Array(this.delta.length * 2);
      event.set(this.event);
      delta.set(this.delta);
      this.event = event;
      this.delta = delta;
      this.from = new Int32Array(event.length + 1);
      this.height = new Int32Array(event.length + 1);
    }
    const e = this.events;
    this.delta[e] = amount;
    this.event[e] = from * 0x200000 + e;
    this.delta[e + 1] = -amount;
    this.event[e + 1] = to * 0x200000 + e + 1;
    this.events += 2;
  }

  private sweep(): void {
    const { event, delta, from, height, events } = this;
    // Nearly in order, and few: shifting beats the library's sort up to some hundred.
    if (events > 256) event.subarray(0, events).sort();
    else
      for (let p = 1; p < events; p++) {
        const value = event[p];
        let q = p;
        for (; q > 0 && event[q - 1] > value; q--) event[q] = event[q - 1];
        event[q] = value;
      }
    let segments = 0;
    let level = 0;
    let peak = 0;
    let last = -Infinity;
    for (let p = 0; p < events; p++) {
      const time = Math.floor(event[p] / 0x200000);
      if (time !== last) {
        if (segments > 0 && level > peak) peak = level;
        from[segments++] = time;
        last = time;
      }
      level += delta[event[p] - time * 0x200000];
      height[segments - 1] = level;
    }
    this.segments = segments;
    this.peak = Math.max(peak, level);
  }

  /** Whether use `k` takes what is sure of it in the whole segment that begins at `t`. */
  private takes(k: number, t: number): boolean {
    if (this.begin[k] > t || t >= this.end[k]) return false;
    const { hours } = this.uses[k];
    return hours === null || this.worksAt(hours, t);
  }

  private worksAt(hours: Spans, t: number): boolean {
    const i = spanAfter(hours, t);
    return i < hours.count && hours.starts[i] <= t;
  }

  private others(s: number, k: number): number {
    return this.takes(k, this.from[s]) ? this.height[s] - this.sure[k] : this.height[s];
  }

  private filter(k: number): boolean {
    if (this.peak + this.most[k] <= this.capacity) return true;
    const { bound } = this.trail;
    if (bound[lowerOf(this.start[k])] >= this.absent) return true;
    const own = this.sure[k];
    if (own > 0 && this.peak + own > this.capacity && !this.filterTimes(k)) return false;
    const times = this.times[k];
    if (times === NONE || bound[lowerOf(times)] === -bound[upperOf(times)]) return true;
    return this.begin[k] >= this.end[k] || this.filterAmount(k, times);
  }

  private segmentAt(t: number): number {
    let low = 0;
    let high = this.segments;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.from[middle] <= t) low = middle + 1;
      else high = middle;
    }
    return Math.max(0, low - 1);
  }

  private filterTimes(k: number): boolean {
    const { trail, segments, from, height } = this;
    const { bound } = trail;
    const room = this.capacity - this.sure[k];
    const early = bound[lowerOf(this.start[k])];
    // No moment from that of absent work on counts.
    const end = Math.min(bound[lowerOf(this.finish[k])] + this.tail[k], this.absent);
    const late = -bound[upperOf(this.start[k])];
    const lastEnd = Math.min(-bound[upperOf(this.finish[k])] + this.tail[k], this.absent);
    const { hours } = this.uses[k];
    if (early < end) {
      for (let s = this.segmentAt(end - 1); s >= 0; s--) {
        const next = s + 1 < segments ? from[s + 1] : end;
        if (next <= early) break;
        if (height[s] <= room || from[s] >= end || this.others(s, k) <= room) continue;
        const low = Math.max(from[s], early);
        const t =
          hours === null ? Math.min(next, end) - 1 : lastIn(hours, low, Math.min(next, end));
        if (t < low) continue;
        if (!trail.raise(lowerOf(this.start[k]), t + 1, this.reason, t)) return false;
        break;
      }
    }
    if (late < lastEnd) {
      for (let s = this.segmentAt(late); s < segments; s++) {
        if (from[s] >= lastEnd) break;
        const next = s + 1 < segments ? from[s + 1] : lastEnd;
        if (next <= late || height[s] <= room || this.others(s, k) <= room) continue;
        const low = Math.max(from[s], late);
        const high = Math.min(next, lastEnd);
        const t = hours === null ? low : firstIn(hours, low);
        if (t >= high) continue;
        const b = upperOf(this.finish[k]);
        return trail.raise(b, this.tail[k] - t, this.reason, t);
      }
    }
    return true;
  }

  private filterAmount(k: number, times: number): boolean {
    const { trail, segments, from } = this;
    const { hours } = this.uses[k];
    let most = -trail.bound[upperOf(times)];
    for (let s = this.segmentAt(this.begin[k]); s < segments && from[s] < this.end[k]; s++) {
      const next = s + 1 < segments ? from[s + 1] : this.end[k];
      const low = Math.max(from[s], this.begin[k]);
      if (next <= low) continue;
      const t = hours === null ? low : firstIn(hours, low);
      if (t >= Math.min(next, this.end[k])) continue;
      const left = Math.floor((this.capacity - this.others(s, k)) / this.amount[k]);
      if (left >= most) continue;
      if (!trail.raise(upperOf(times), -left, this.reason, t)) return false;
      most = left;
    }
    return true;
  }

  /**
   * A use of this variable could not be at `moment`, in the state before. The moment is shifted,
   * within what blocks it, to where least is asked of the use itself.
   */
  explain(b: number, v: number, moment: number, out: Literals): void {
    const x = b >> 1;
    const { bound } = this.trail;
    for (const k of this.usesOf.get(x) ?? []) {
      const { hours } = this.uses[k];
      if (hours !== null && !this.worksAt(hours, moment)) continue;
      const own = this.times[k] === x ? this.amount[k] * (1 - v) : this.units(k);
      if (own === 0) continue;
      const starts = this.start[k];
      const finishes = this.finish[k];
      if (x === this.times[k]) {
        if (-bound[upperOf(starts)] > moment || bound[lowerOf(finishes)] + this.tail[k] <= moment)
          continue;
        const size = this.blockers(moment, k, this.capacity - own);
        if (size < 0) continue;
        out.add(upperOf(starts), -moment);
        out.add(lowerOf(finishes), moment + 1 - this.tail[k]);
        this.addCover(size, moment, out);
        return;
      }
      const later = b === lowerOf(starts);
      if (!later && b !== upperOf(finishes)) continue;
      if (later && bound[lowerOf(finishes)] + this.tail[k] <= moment) continue;
      if (!later && -bound[upperOf(starts)] > moment) continue;
      const size = this.blockers(moment, k, this.capacity - own);
      if (size < 0) continue;
      const t = later
        ? this.shiftedDown(size, k, moment, v - 1)
        : this.shiftedUp(size, k, moment, this.tail[k] - v);
      if (later) out.add(lowerOf(finishes), t + 1 - this.tail[k]);
      else out.add(upperOf(starts), -t);
      this.addAmount(k, out);
      this.addCover(size, t, out);
      return;
    }
    throw new Error('no use of the resource tells why');
  }

  /** The earliest moment from `least` on, up to `t`, at which all that blocks `t` does so. */
  private shiftedDown(size: number, k: number, t: number, least: number): number {
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

  private shiftedUp(size: number, k: number, t: number, most: number): number {
    const { bound } = this.trail;
    let to = Math.min(most, this.stepTo(t) - 1, this.absent - 1);
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

  private explainOverload(out: Literals): void {
    let s = 0;
    while (this.height[s] <= this.capacity) s++;
    const size = this.blockers(this.from[s], NONE, this.capacity);
    out.clear();
    this.addCover(size, this.from[s], out);
  }

  private addCover(size: number, t: number, out: Literals): void {
    for (let c = 0; c < size; c++) {
      const k = this.cover[c];
      out.add(upperOf(this.start[k]), -t);
      out.add(lowerOf(this.finish[k]), t + 1 - this.tail[k]);
      this.addAmount(k, out);
    }
  }

  private addAmount(k: number, out: Literals): void {
    const times = this.times[k];
    if (times !== NONE) out.add(lowerOf(times), this.trail.bound[lowerOf(times)]);
  }

  private stepIndex(t: number): number {
    let i = this.steps.length - 1;
    while (i > 0 && this.steps[i].from > t) i--;
    return i;
  }

  private stepFrom(t: number): number {
    const i = this.stepIndex(t);
    return i === 0 ? -0x3fffffff : this.steps[i].from;
  }

  private stepTo(t: number): number {
    const i = this.stepIndex(t) + 1;
    return i < this.steps.length ? this.steps[i].from : 0x3fffffff;
  }

  /** Fills `cover` with uses other than `k` that take more than `room` at `t`; -1 if they do not. */
  private blockers(t: number, k: number, room: number): number {
    const { cover } = this;
    const { bound } = this.trail;
    let size = 0;
    let excess = this.capacity - this.steps[this.stepIndex(t)].capacity - room - 1;
    for (let o = 0; o < this.start.length; o++) {
      if (o === k || -bound[upperOf(this.start[o])] > t) continue;
      if (bound[lowerOf(this.finish[o])] + this.tail[o] <= t) continue;
      const units = this.units(o);
      if (units === 0) continue;
      const { hours } = this.uses[o];
      if (hours !== null && !this.worksAt(hours, t)) continue;
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

  rewind(): void {
    // The profile is made anew at each run.
  }

  drop(): void {
    this.stale = false;
  }
}
