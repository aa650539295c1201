import { lowerOf, upperOf, type Literals } from '../../../propagation/literal.ts';
import type { Propagator, Watch } from '../../../propagation/propagator.ts';
import type { Trail } from '../../../propagation/trail.ts';
import type { Literal } from './link.ts';
import { BEYOND } from './monotone.ts';
import { pointFrom, pointTo, type Pieces, type Point } from './pieces.ts';

/** A way to do an activity: where it may be, if the literal is true (null: whenever it is present). */
export interface Way {
  readonly when: Literal | null;
  readonly pieces: Pieces;
}

interface WaysOf {
  readonly start: number;
  readonly finish: number;
  readonly ways: readonly Way[];
  /** The value of start and finish where the activity is absent. */
  readonly absent: number;
}

/**
 * Start and finish of an activity, given the ways that are left: hours with pauses, shifts, slots
 * and forbidden moments are all in the pieces of a way. Both bounds are those over all ways left,
 * and a way of which no point fits between the bounds is refuted.
 *
 * The generalised precedence of work with calendars: S. Kreter, A. Schutt, P. J. Stuckey, "Using
 * constraint programming for solving RCPSP/max-cal", Constraints 22 (2017) 432-462; explanations
 * name for each way one bound that excludes its nearest point. O(ways log pieces) a run.
 */
export class Ways implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 1;
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly start: number;
  private readonly finish: number;
  private readonly ways: readonly Way[];
  private readonly absent: number;
  private readonly point: Point = { s: 0, e: 0 };
  private stale = false;

  constructor(trail: Trail, reason: number, { start, finish, ways, absent }: WaysOf) {
    this.trail = trail;
    this.reason = reason;
    this.start = start;
    this.finish = finish;
    this.ways = ways;
    this.absent = absent;
    const bounds = [
      ...[start, finish].flatMap((x) => [lowerOf(x), upperOf(x)]),
      ...ways.flatMap(({ when }) => (when === null ? [] : [when.b, when.b ^ 1])),
    ];
    this.watches = bounds.map((bound) => ({ bound, datum: 0 }));
  }

  notice(): boolean {
    if (this.stale) return false;
    this.stale = true;
    return true;
  }

  /** The way that is decided on, or -1. */
  private decided(): number {
    const { bound } = this.trail;
    for (let k = 0; k < this.ways.length; k++) {
      const { when } = this.ways[k];
      if (when !== null && bound[when.b] >= when.v) return k;
    }
    return -1;
  }

  private isOut({ when }: Way): boolean {
    return when !== null && this.trail.bound[when.b ^ 1] >= 1 - when.v;
  }

  propagate(): boolean {
    this.stale = false;
    const { trail, start, finish, ways, point } = this;
    const { bound } = trail;
    const only = this.decided();
    const s = bound[lowerOf(start)];
    const e = bound[lowerOf(finish)];
    const lastS = -bound[upperOf(start)];
    const lastE = -bound[upperOf(finish)];
    let firstS = this.absent;
    let firstE = this.absent;
    let highS = -BEYOND;
    let highE = -BEYOND;
    for (let k = 0; k < ways.length; k++) {
      const way = ways[k];
      if ((only >= 0 && k !== only) || this.isOut(way)) continue;
      if (!pointFrom(way.pieces, s, e, point) || point.s > lastS || point.e > lastE) {
        if (way.when !== null && k !== only) {
          const { b, v } = way.when;
          if (!trail.raise(b ^ 1, 1 - v, this.reason, k + 1)) return false;
          continue;
        }
        if (!pointFrom(way.pieces, s, e, point)) continue;
      }
      firstS = Math.min(firstS, point.s);
      firstE = Math.min(firstE, point.e);
      if (Math.min(lastS, lastE) < this.absent && pointTo(way.pieces, lastS, lastE, point)) {
        highS = Math.max(highS, point.s);
        highE = Math.max(highE, point.e);
      }
    }
    if (firstS > s && !trail.raise(lowerOf(start), firstS, this.reason, 0)) return false;
    if (firstE > e && !trail.raise(lowerOf(finish), firstE, this.reason, 0)) return false;
    if (lastS >= this.absent && lastE >= this.absent) return true;
    if (highS < lastS && !trail.raise(upperOf(start), -highS, this.reason, 0)) return false;
    return highE >= lastE || trail.raise(upperOf(finish), -highE, this.reason, 0);
  }

  explain(b: number, v: number, detail: number, out: Literals): void {
    if (detail > 0) this.explainRefuted(this.ways[detail - 1].pieces, out);
    else if ((b & 1) === 0) this.explainLower(b === lowerOf(this.start), v, out);
    else this.explainUpper(b === upperOf(this.start), -v, out);
  }

  /** No point of the way lies between the bounds: none before its first one, and that is too late. */
  private explainRefuted(pieces: Pieces, out: Literals): void {
    const { trail, start, finish, point } = this;
    const { bound } = trail;
    const s = bound[lowerOf(start)];
    const e = bound[lowerOf(finish)];
    const found = pointFrom(pieces, s, e, point);
    const nextS = found ? point.s : BEYOND;
    const nextE = found ? point.e : BEYOND;
    if (pointTo(pieces, nextS - 1, BEYOND, point)) {
      if (point.s < s) out.add(lowerOf(start), point.s + 1);
      else out.add(lowerOf(finish), point.e + 1);
    }
    if (!found) return;
    if (nextS > -bound[upperOf(start)]) out.add(upperOf(start), 1 - nextS);
    else out.add(upperOf(finish), 1 - nextE);
  }

  /** Every way left has its last point before `v` excluded by one of the lower bounds. */
  private explainLower(ofStart: boolean, v: number, out: Literals): void {
    const { trail, start, finish, ways, point } = this;
    const { bound } = trail;
    const s = bound[lowerOf(start)];
    const only = this.decided();
    let fromS = -BEYOND;
    let fromE = -BEYOND;
    for (let k = 0; k < ways.length; k++) {
      if ((only >= 0 && k !== only) || this.isOut(ways[k])) continue;
      const [most, end] = ofStart ? [v - 1, BEYOND] : [BEYOND, v - 1];
      if (!pointTo(ways[k].pieces, most, end, point)) continue;
      if (point.s < s) fromS = Math.max(fromS, point.s + 1);
      else fromE = Math.max(fromE, point.e + 1);
    }
    if (only >= 0) this.addTrue(ways[only], out);
    else
      for (const way of ways) {
        if (!this.isOut(way)) continue;
        const [most, end] = ofStart ? [v - 1, BEYOND] : [BEYOND, v - 1];
        if (!pointTo(way.pieces, most, end, point)) continue;
        if (point.s >= fromS && point.e >= fromE) this.addFalse(way, out);
      }
    if (fromS > -BEYOND) out.add(lowerOf(start), fromS);
    if (fromE > -BEYOND) out.add(lowerOf(finish), fromE);
  }

  /** The same from above; that it is present has to follow from an upper bound. */
  private explainUpper(ofStart: boolean, v: number, out: Literals): void {
    const { trail, start, finish, ways, point } = this;
    const { bound } = trail;
    const s = -bound[upperOf(start)];
    const only = this.decided();
    let toS = BEYOND;
    let toE = BEYOND;
    for (let k = 0; k < ways.length; k++) {
      if ((only >= 0 && k !== only) || this.isOut(ways[k])) continue;
      const [least, end] = ofStart ? [v + 1, -BEYOND] : [-BEYOND, v + 1];
      if (!pointFrom(ways[k].pieces, least, end, point)) continue;
      if (point.s > s) toS = Math.min(toS, point.s - 1);
      else toE = Math.min(toE, point.e - 1);
    }
    if (only >= 0) this.addTrue(ways[only], out);
    else
      for (const way of ways) {
        if (!this.isOut(way)) continue;
        const [least, end] = ofStart ? [v + 1, -BEYOND] : [-BEYOND, v + 1];
        if (!pointFrom(way.pieces, least, end, point)) continue;
        if (point.s <= toS && point.e <= toE) this.addFalse(way, out);
      }
    if (toS === BEYOND && toE === BEYOND) {
      if (s < this.absent) toS = this.absent - 1;
      else toE = this.absent - 1;
    }
    if (toS < BEYOND) out.add(upperOf(start), -toS);
    if (toE < BEYOND) out.add(upperOf(finish), -toE);
  }

  private addTrue({ when }: Way, out: Literals): void {
    if (when !== null) out.add(when.b, when.v);
  }

  private addFalse({ when }: Way, out: Literals): void {
    if (when !== null) out.add(when.b ^ 1, 1 - when.v);
  }

  rewind(): void {
    // Nothing is kept that depends on bounds.
  }

  drop(): void {
    this.stale = false;
  }
}
