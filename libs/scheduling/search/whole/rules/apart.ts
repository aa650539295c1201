import { lowerOf, upperOf, type Literals } from '../../../propagation/literal.ts';
import type { Propagator, Watch } from '../../../propagation/propagator.ts';
import type { Trail } from '../../../propagation/trail.ts';
import type { Spans } from '../../crew/compiled/spans.ts';
import { firstIn, lastIn } from './inside.ts';
import type { Use } from './occupancy.ts';

interface ApartOf {
  readonly uses: readonly Use[];
  /** Pairs of uses, by index, that are never there in the same minute; of a pair one at most has hours. */
  readonly pairs: readonly (readonly [number, number])[];
  /** The start of work that is absent. */
  readonly absent: number;
}

const NONE = -1;

/**
 * Uses that cannot be there at the same time, pair by pair, such as dust and what is wet: where one
 * is for certain, [latest start, earliest finish), the other starts later, has ended or is not there.
 *
 * What `Usage` concludes for a capacity of one use of each pair (the time-table rule of A. Schutt et
 * al., Constraints 16 (2011) 250-282), for very many pairs at once. O(partners) for each use that
 * was told of; a conclusion is told by a moment that is found again from the value asked for.
 */
export class Apart implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 0;
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly absent: number;
  private readonly start: Int32Array;
  private readonly finish: Int32Array;
  private readonly tail: Int32Array;
  private readonly times: Int32Array;
  private readonly hours: readonly (Spans | null)[];
  /** By use, the pairs it is in: 2 * pair, plus 1 where it is the second of it. */
  private readonly sidesOf: readonly Int32Array[];
  /** By pair, its two uses. */
  private readonly member: Int32Array;
  private readonly told: Int32Array;
  private readonly isTold: Uint8Array;
  private toldCount = 0;

  constructor(trail: Trail, reason: number, { uses, pairs, absent }: ApartOf) {
    this.trail = trail;
    this.reason = reason;
    this.absent = absent;
    this.start = Int32Array.from(uses, (use) => use.start);
    this.finish = Int32Array.from(uses, (use) => use.finish);
    this.tail = Int32Array.from(uses, (use) => use.tail);
    this.times = Int32Array.from(uses, (use) => use.times ?? NONE);
    this.hours = uses.map(({ hours }) => hours);
    const sides: number[][] = uses.map(() => []);
    pairs.forEach(([one, other], p) => {
      sides[one].push(2 * p);
      sides[other].push(2 * p + 1);
    });
    this.sidesOf = sides.map((own) => Int32Array.from(own));
    this.member = Int32Array.from(pairs.flat());
    this.told = new Int32Array(uses.length);
    this.isTold = new Uint8Array(uses.length);
    this.watches = uses.flatMap(({ start, finish, times }, datum) =>
      [
        lowerOf(start),
        upperOf(start),
        lowerOf(finish),
        upperOf(finish),
        ...(times === null ? [] : [lowerOf(times)]),
      ].map((bound) => ({ bound, datum })),
    );
  }

  notice(k: number): boolean {
    if (this.isTold[k] !== 0) return false;
    this.isTold[k] = 1;
    this.told[this.toldCount++] = k;
    return this.toldCount === 1;
  }

  propagate(): boolean {
    while (this.toldCount > 0) {
      const k = this.told[--this.toldCount];
      this.isTold[k] = 0;
      if (!this.visit(k)) return false;
    }
    return true;
  }

  private visit(k: number): boolean {
    const { member } = this;
    if (this.trail.bound[lowerOf(this.start[k])] >= this.absent) return true;
    const isSure = this.isSure(k);
    for (const side of this.sidesOf[k]) {
      const o = member[side ^ 1];
      // The reason of what is concluded of a use is the side that it is on.
      if (this.isSure(o) && !this.filter(k, o, side)) return false;
      if (isSure && !this.filter(o, k, side ^ 1)) return false;
    }
    return true;
  }

  private isHere(k: number): boolean {
    const times = this.times[k];
    return times === NONE || this.trail.bound[lowerOf(times)] > 0;
  }

  private isSure(k: number): boolean {
    return this.isHere(k) && this.begin(k) < this.end(k);
  }

  /** The part in which a use is for certain, if it is there at all. */
  private begin(k: number): number {
    return -this.trail.bound[upperOf(this.start[k])];
  }

  private end(k: number): number {
    return Math.min(this.trail.bound[lowerOf(this.finish[k])] + this.tail[k], this.absent);
  }

  /** The last moment of [from, to) at which both would be there; before `from` if there is none. */
  private last(k: number, o: number, from: number, to: number): number {
    const hours = this.hours[k] ?? this.hours[o];
    if (from >= to) return from - 1;
    return hours === null ? to - 1 : lastIn(hours, from, to);
  }

  private first(k: number, o: number, from: number): number {
    const hours = this.hours[k] ?? this.hours[o];
    return hours === null ? from : firstIn(hours, from);
  }

  /** What follows for `k` where `o` is for certain. */
  private filter(k: number, o: number, side: number): boolean {
    const { trail, reason, absent } = this;
    const { bound } = trail;
    const [from, to] = [this.begin(o), this.end(o)];
    const early = bound[lowerOf(this.start[k])];
    const lastEnd = Math.min(-bound[upperOf(this.finish[k])] + this.tail[k], absent);
    if (early >= to || lastEnd <= from) return true;
    const [begin, end] = [this.begin(k), this.end(k)];
    if (!this.isHere(k)) {
      const b = upperOf(this.times[k]);
      if (bound[b] >= 0) return true;
      const low = Math.max(from, begin);
      if (this.first(k, o, low) >= Math.min(to, end)) return true;
      return trail.raise(b, 0, reason, side);
    }
    const low = Math.max(from, early);
    const t = this.last(k, o, low, Math.min(to, end));
    if (t >= low && !trail.raise(lowerOf(this.start[k]), t + 1, reason, side)) return false;
    const late = this.first(k, o, Math.max(from, begin));
    if (late >= Math.min(to, lastEnd)) return true;
    return trail.raise(upperOf(this.finish[k]), this.tail[k] - late, reason, side);
  }

  explain(b: number, v: number, side: number, out: Literals): void {
    const k = this.member[side];
    const o = this.member[side ^ 1];
    const [from, to] = [this.begin(o), this.end(o)];
    const tail = this.tail[k];
    let t: number;
    if (b === lowerOf(this.start[k])) {
      t = this.first(k, o, Math.max(from, v - 1));
      out.add(lowerOf(this.finish[k]), t + 1 - tail);
      this.addHere(k, out);
    } else if (b === upperOf(this.finish[k])) {
      t = this.last(k, o, from, Math.min(to, tail - v + 1));
      out.add(upperOf(this.start[k]), -t);
      this.addHere(k, out);
    } else {
      t = this.first(k, o, Math.max(from, this.begin(k)));
      out.add(upperOf(this.start[k]), -t);
      out.add(lowerOf(this.finish[k]), t + 1 - tail);
    }
    out.add(upperOf(this.start[o]), -t);
    out.add(lowerOf(this.finish[o]), t + 1 - this.tail[o]);
    this.addHere(o, out);
  }

  private addHere(k: number, out: Literals): void {
    if (this.times[k] !== NONE) out.add(lowerOf(this.times[k]), 1);
  }

  rewind(): void {
    // Nothing is kept that depends on bounds.
  }

  drop(): void {
    while (this.toldCount > 0) this.isTold[this.told[--this.toldCount]] = 0;
  }
}
