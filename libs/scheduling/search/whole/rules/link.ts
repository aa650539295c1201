import { lowerOf, upperOf, type Literals } from '../../../propagation/literal.ts';
import type { Propagator, Watch } from '../../../propagation/propagator.ts';
import type { Trail } from '../../../propagation/trail.ts';
import type { Monotone } from './monotone.ts';

/** The literal "bound[b] >= v". */
export interface Literal {
  readonly b: number;
  readonly v: number;
}

/** `to >= fn(from)`, where all of `when` (two at most) are true. */
export interface Link {
  readonly from: number;
  readonly to: number;
  readonly fn: Monotone;
  readonly when: readonly Literal[];
}

const FORWARD = 0;
const BACKWARD = 1;
/** And the number of the condition that is refuted. */
const REFUTED = 2;

/**
 * Monotone lags under conditions. What is beyond `latest` is capped there, the value of work that
 * is absent, so that a window which never opens makes its work absent where that may be.
 *
 * The half-reified difference constraints of T. Feydy, A. Schutt, P. J. Stuckey, "Global difference
 * constraint propagation for finite domain solvers", PPDP 2008, with a function in place of the
 * constant: from `to >= fn(from)` follows `from <= max { t : fn(t) <= to }`. A link costs its two
 * readings of the function; explanations are lifted to the value asked for.
 */
export class Links implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 0;
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly links: readonly Link[];
  private readonly latest: number;
  /** Links by the bounds that wake them: those of bound b from `wakeFrom[b]` on. */
  private readonly wakeFrom: Int32Array;
  private readonly wakes: Int32Array;
  private readonly queue: Int32Array;
  private readonly queued: Uint8Array;
  private waiting = 0;

  constructor(trail: Trail, reason: number, links: readonly Link[], latest: number) {
    this.trail = trail;
    this.reason = reason;
    this.links = links;
    this.latest = latest;
    this.queue = new Int32Array(links.length);
    this.queued = new Uint8Array(links.length);
    const wakeFrom = new Int32Array(trail.bound.length + 1);
    const each = (use: (bound: number, l: number) => void): void => {
      for (let l = 0; l < links.length; l++) {
        const { from, to, when } = links[l];
        use(lowerOf(from), l);
        use(upperOf(to), l);
        for (const { b } of when) use(b, l);
      }
    };
    each((bound) => wakeFrom[bound + 1]++);
    for (let b = 0; b < trail.bound.length; b++) wakeFrom[b + 1] += wakeFrom[b];
    const next = wakeFrom.slice();
    const wakes = new Int32Array(wakeFrom[trail.bound.length]);
    each((bound, l) => {
      wakes[next[bound]++] = l;
    });
    this.wakeFrom = wakeFrom;
    this.wakes = wakes;
    const watches: Watch[] = [];
    for (let bound = 0; bound < trail.bound.length; bound++)
      if (wakeFrom[bound] < wakeFrom[bound + 1]) watches.push({ bound, datum: bound });
    this.watches = watches;
  }

  notice(bound: number): boolean {
    const isFirst = this.waiting === 0;
    for (let w = this.wakeFrom[bound]; w < this.wakeFrom[bound + 1]; w++) {
      const l = this.wakes[w];
      if (this.queued[l] !== 0) continue;
      this.queued[l] = 1;
      this.queue[this.waiting++] = l;
    }
    return isFirst && this.waiting > 0;
  }

  propagate(): boolean {
    while (this.waiting > 0) {
      const l = this.queue[--this.waiting];
      this.queued[l] = 0;
      if (!this.follow(l)) return false;
    }
    return true;
  }

  private follow(l: number): boolean {
    const { trail, reason } = this;
    const { bound } = trail;
    const { from, to, fn, when } = this.links[l];
    let open = -1;
    for (let k = 0; k < when.length; k++) {
      const { b, v } = when[k];
      if (bound[b] >= v) continue;
      if (open >= 0 || bound[b ^ 1] >= 1 - v) return true;
      open = k;
    }
    const value = this.forwards(fn, bound[lowerOf(from)]);
    const upper = upperOf(to);
    if (open >= 0) {
      if (value + bound[upper] <= 0) return true;
      const { b, v } = when[open];
      return trail.raise(b ^ 1, 1 - v, reason, 4 * l + REFUTED + open);
    }
    if (value > bound[lowerOf(to)] && !trail.raise(lowerOf(to), value, reason, 4 * l + FORWARD))
      return false;
    // Every value is capped: a target that may be absent bounds nothing.
    if (-bound[upper] >= this.latest) return true;
    const back = fn.back(-bound[upper]);
    return (
      -back <= bound[upperOf(from)] || trail.raise(upperOf(from), -back, reason, 4 * l + BACKWARD)
    );
  }

  private forwards(fn: Monotone, t: number): number {
    return Math.min(fn.at(t), this.latest);
  }

  explain(_: number, v: number, detail: number, out: Literals): void {
    const { from, to, fn, when } = this.links[detail >> 2];
    const kind = detail & 3;
    if (kind === FORWARD) out.add(lowerOf(from), fn.back(v - 1) + 1);
    else if (kind === BACKWARD) out.add(upperOf(to), 1 - this.forwards(fn, 1 - v));
    else {
      const most = -this.trail.bound[upperOf(to)];
      out.add(upperOf(to), -most);
      out.add(lowerOf(from), fn.back(most) + 1);
    }
    for (let k = 0; k < when.length; k++)
      if (kind < REFUTED || k !== kind - REFUTED) out.add(when[k].b, when[k].v);
  }

  rewind(): void {
    // Nothing is kept that depends on bounds.
  }

  drop(): void {
    while (this.waiting > 0) this.queued[this.queue[--this.waiting]] = 0;
  }
}
