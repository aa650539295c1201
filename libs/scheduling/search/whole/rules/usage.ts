import { lowerOf, upperOf, type Literals } from '../../../propagation/literal.ts';
import type { Propagator, Watch } from '../../../propagation/propagator.ts';
import type { Trail } from '../../../propagation/trail.ts';
import { spanAfter } from '../../crew/compiled/spans.ts';
import { firstIn, lastIn } from './inside.ts';
import { NONE, Occupancy, worksAt, type Step, type Use } from './occupancy.ts';
import { Profile } from './profile.ts';

interface UsageOf {
  readonly steps: readonly Step[];
  readonly uses: readonly Use[];
  /** The start of work that is absent. */
  readonly absent: number;
}

const FAR = 0x3fffffff;
/** Segments for each that is needed, from which on the profile is made anew. */
const CROWDED = 4;

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
 * explanation speaks of durations. The profile follows the bounds both ways, by the difference of
 * each part to what it was. A run costs O(segments), and for each use that was told of, or that
 * may lie where the profile has grown, the segments that it passes.
 */
export class Usage implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 2;
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly absent: number;
  private readonly of: Occupancy;
  private readonly profile = new Profile();
  /** Uses of each start, finish or amount variable. */
  private readonly usesOf: ReadonlyMap<number, readonly number[]>;

  /** The part of each use that is in the profile; `sure` is 0 where there is none. */
  private readonly begin: Int32Array;
  private readonly end: Int32Array;
  private readonly sure: Int32Array;
  /** What a use could take at most. */
  private readonly most: Int32Array;
  /** Uses that were told of since the last run. */
  private readonly told: Int32Array;
  private readonly isTold: Uint8Array;
  private toldCount = 0;
  /** Bounds have fallen since the last run. */
  private fell = false;
  private crowdedAt = 0;
  private peak = 0;
  /** Where the profile has grown. */
  private grownFrom = FAR;
  private grownTo = -FAR;

  constructor(trail: Trail, reason: number, { steps, uses, absent }: UsageOf) {
    this.trail = trail;
    this.reason = reason;
    this.absent = absent;
    this.of = new Occupancy(trail, uses, steps);
    this.begin = new Int32Array(uses.length);
    this.end = new Int32Array(uses.length);
    this.sure = new Int32Array(uses.length);
    this.told = new Int32Array(uses.length);
    this.isTold = new Uint8Array(uses.length);
    this.most = Int32Array.from(uses, ({ amount, times }) =>
      times === null ? amount : amount * -trail.bound[upperOf(times)],
    );
    const usesOf = new Map<number, number[]>();
    const watches: Watch[] = [];
    uses.forEach(({ start, finish, times }, k) => {
      for (const x of times === null ? [start, finish] : [start, finish, times]) {
        const own = usesOf.get(x);
        if (own === undefined) usesOf.set(x, [k]);
        else own.push(k);
        watches.push({ bound: lowerOf(x), datum: k });
        if (x !== times) watches.push({ bound: upperOf(x), datum: k });
      }
    });
    this.usesOf = usesOf;
    this.watches = watches;
    this.rebuild();
  }

  notice(k: number): boolean {
    if (this.isTold[k] !== 0) return false;
    this.isTold[k] = 1;
    this.told[this.toldCount++] = k;
    return this.toldCount === 1;
  }

  propagate(conflict: Literals): boolean {
    this.follow();
    if (this.peak > this.of.capacity) {
      this.explainOverload(conflict);
      this.drop();
      return false;
    }
    const kept = this.filterGrown() && this.filterTold();
    this.drop();
    return kept;
  }

  /** Brings the profile up to date. */
  private follow(): void {
    this.grownFrom = FAR;
    this.grownTo = -FAR;
    if (this.profile.count > this.crowdedAt) this.rebuild();
    else if (this.fell) for (let k = 0; k < this.begin.length; k++) this.move(k);
    else for (let p = 0; p < this.toldCount; p++) this.move(this.told[p]);
    // What rose again after bounds fell may have less than it had: where it is counts as grown.
    for (let p = 0; p < this.toldCount && this.fell; p++) {
      const k = this.told[p];
      if (this.sure[k] > 0) this.grown(this.begin[k], this.end[k]);
    }
    this.fell = false;
    this.peak = this.profile.peak;
  }

  private rebuild(): void {
    const { profile, of } = this;
    profile.clear();
    of.steps.forEach(({ from, capacity }, i) => {
      const to = i + 1 < of.steps.length ? of.steps[i + 1].from : FAR;
      if (of.steps.length > 1) profile.add(from, to, of.capacity - capacity);
    });
    this.sure.fill(0);
    for (let k = 0; k < this.begin.length; k++) this.move(k);
    this.crowdedAt = CROWDED * profile.count + 64;
  }

  private grown(from: number, to: number): void {
    if (from < this.grownFrom) this.grownFrom = from;
    if (to > this.grownTo) this.grownTo = to;
  }

  /** The part of use `k` in the profile becomes what it is by the bounds. */
  private move(k: number): void {
    const { of, begin, end, sure } = this;
    const { bound } = this.trail;
    const from = -bound[upperOf(of.start[k])];
    const to = Math.min(bound[lowerOf(of.finish[k])] + of.tail[k], this.absent);
    const units = from < to ? of.units(k) : 0;
    const [oldFrom, oldTo, old] = [begin[k], end[k], sure[k]];
    begin[k] = from;
    end[k] = to;
    sure[k] = units;
    if (units === old && (old === 0 || (from === oldFrom && to === oldTo))) return;
    if (units === old && from < oldTo && oldFrom < to) {
      this.change(k, from, oldFrom, units);
      this.change(k, oldFrom, from, -units);
      this.change(k, to, oldTo, -units);
      this.change(k, oldTo, to, units);
    } else {
      if (old > 0) this.change(k, oldFrom, oldTo, -old);
      if (units > 0) this.change(k, from, to, units);
    }
  }

  private change(k: number, from: number, to: number, amount: number): void {
    if (from >= to) return;
    if (amount > 0) this.grown(from, to);
    const { hours } = this.of.uses[k];
    if (hours === null) {
      this.profile.add(from, to, amount);
      return;
    }
    for (let i = spanAfter(hours, from); i < hours.count && hours.starts[i] < to; i++)
      this.profile.add(Math.max(from, hours.starts[i]), Math.min(to, hours.ends[i]), amount);
  }

  /** All that may be where the profile has grown. */
  private filterGrown(): boolean {
    const { grownFrom, grownTo, of, isTold } = this;
    if (grownFrom >= grownTo) return true;
    const { bound } = this.trail;
    const high = this.profile.highest(grownFrom, grownTo);
    for (let k = 0; k < isTold.length; k++) {
      if (isTold[k] !== 0 || high + this.most[k] <= of.capacity) continue;
      if (bound[lowerOf(of.start[k])] >= grownTo) continue;
      if (-bound[upperOf(of.finish[k])] + of.tail[k] <= grownFrom) continue;
      if (!this.filter(k)) return false;
    }
    return true;
  }

  private filterTold(): boolean {
    for (let p = 0; p < this.toldCount; p++) if (!this.filter(this.told[p])) return false;
    return true;
  }

  /** What the others take in segment `s`. */
  private others(s: number, k: number): number {
    const { profile, begin, end, sure } = this;
    const t = profile.from[s];
    if (sure[k] === 0 || begin[k] > t || t >= end[k]) return profile.height[s];
    const { hours } = this.of.uses[k];
    return profile.height[s] - (hours === null || worksAt(hours, t) ? sure[k] : 0);
  }

  private filter(k: number): boolean {
    const { of } = this;
    if (this.peak + this.most[k] <= of.capacity) return true;
    const { bound } = this.trail;
    if (bound[lowerOf(of.start[k])] >= this.absent) return true;
    const own = of.units(k);
    if (own > 0 && this.peak + own > of.capacity && !this.filterTimes(k, of.capacity - own))
      return false;
    const times = of.times[k];
    if (times === NONE || bound[lowerOf(times)] === -bound[upperOf(times)]) return true;
    return this.begin[k] >= this.end[k] || this.filterAmount(k, times);
  }

  private filterTimes(k: number, room: number): boolean {
    const { trail, of, profile } = this;
    const { from, height, count } = profile;
    const { bound } = trail;
    const tail = of.tail[k];
    const early = bound[lowerOf(of.start[k])];
    // No moment from that of absent work on counts.
    const end = Math.min(bound[lowerOf(of.finish[k])] + tail, this.absent);
    const late = -bound[upperOf(of.start[k])];
    const lastEnd = Math.min(-bound[upperOf(of.finish[k])] + tail, this.absent);
    const { hours } = of.uses[k];
    if (early < end) {
      for (let s = profile.at(end - 1); s >= 0; s--) {
        const next = s + 1 < count ? from[s + 1] : end;
        if (next <= early) break;
        if (height[s] <= room || from[s] >= end || this.others(s, k) <= room) continue;
        const low = Math.max(from[s], early);
        const t =
          hours === null ? Math.min(next, end) - 1 : lastIn(hours, low, Math.min(next, end));
        if (t < low) continue;
        if (!trail.raise(lowerOf(of.start[k]), t + 1, this.reason, t)) return false;
        break;
      }
    }
    if (late < lastEnd) {
      for (let s = profile.at(late); s < count; s++) {
        if (from[s] >= lastEnd) break;
        const next = s + 1 < count ? from[s + 1] : lastEnd;
        if (next <= late || height[s] <= room || this.others(s, k) <= room) continue;
        const low = Math.max(from[s], late);
        const high = Math.min(next, lastEnd);
        const t = hours === null ? low : firstIn(hours, low);
        if (t >= high) continue;
        return trail.raise(upperOf(of.finish[k]), tail - t, this.reason, t);
      }
    }
    return true;
  }

  private filterAmount(k: number, times: number): boolean {
    const { trail, profile, of } = this;
    const { from, count } = profile;
    const { hours } = of.uses[k];
    let most = -trail.bound[upperOf(times)];
    for (let s = profile.at(this.begin[k]); s < count && from[s] < this.end[k]; s++) {
      const next = s + 1 < count ? from[s + 1] : this.end[k];
      const low = Math.max(from[s], this.begin[k]);
      if (next <= low) continue;
      const t = hours === null ? low : firstIn(hours, low);
      if (t >= Math.min(next, this.end[k])) continue;
      const left = Math.floor((of.capacity - this.others(s, k)) / of.amount[k]);
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
    const { of } = this;
    const { bound } = this.trail;
    for (const k of this.usesOf.get(x) ?? []) {
      const { hours } = of.uses[k];
      if (hours !== null && !worksAt(hours, moment)) continue;
      const own = of.times[k] === x ? of.amount[k] * (1 - v) : of.units(k);
      if (own === 0) continue;
      const starts = of.start[k];
      const finishes = of.finish[k];
      const tail = of.tail[k];
      if (x === of.times[k]) {
        if (-bound[upperOf(starts)] > moment || bound[lowerOf(finishes)] + tail <= moment) continue;
        const size = of.blockers(moment, k, of.capacity - own);
        if (size < 0) continue;
        out.add(upperOf(starts), -moment);
        out.add(lowerOf(finishes), moment + 1 - tail);
        of.addCover(size, moment, out);
        return;
      }
      const later = b === lowerOf(starts);
      if (!later && b !== upperOf(finishes)) continue;
      if (later && bound[lowerOf(finishes)] + tail <= moment) continue;
      if (!later && -bound[upperOf(starts)] > moment) continue;
      const size = of.blockers(moment, k, of.capacity - own);
      if (size < 0) continue;
      const t = later
        ? of.shiftedDown(size, k, moment, v - 1)
        : of.shiftedUp(size, k, moment, Math.min(tail - v, this.absent - 1));
      if (later) out.add(lowerOf(finishes), t + 1 - tail);
      else out.add(upperOf(starts), -t);
      of.addAmount(k, out);
      of.addCover(size, t, out);
      return;
    }
    throw new Error('no use of the resource tells why');
  }

  private explainOverload(out: Literals): void {
    const { of, profile } = this;
    let s = 0;
    while (profile.height[s] <= of.capacity) s++;
    const size = of.blockers(profile.from[s], NONE, of.capacity);
    out.clear();
    of.addCover(size, profile.from[s], out);
  }

  rewind(): void {
    this.fell = true;
  }

  drop(): void {
    for (let p = 0; p < this.toldCount; p++) this.isTold[this.told[p]] = 0;
    this.toldCount = 0;
  }
}
