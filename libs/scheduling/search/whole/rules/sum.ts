import { lowerOf, upperOf, type Literals } from '../../../propagation/literal.ts';
import type { Propagator, Watch } from '../../../propagation/propagator.ts';
import type { Trail } from '../../../propagation/trail.ts';
import type { Monotone } from './monotone.ts';

/** A non-decreasing function of a bound: of a lower bound, or of a negated upper one. */
export interface Term {
  readonly bound: number;
  readonly fn: Monotone;
}

/**
 * The sum of monotone terms is at most the variable `total`: that rises with the terms, and no
 * term may rise further than the total's upper bound leaves it. O(terms) a run; explanations are
 * lifted term by term.
 *
 * The linear inequality of W. Harvey, J. Schimpf, "Bounds consistency techniques for long linear
 * constraints", TRICS 2002, on functions instead of products.
 */
export class Sum implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 1;
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly terms: readonly Term[];
  private readonly total: number;
  /** By term, its bound at the root: nothing is saved by asking for less. */
  private readonly root: Int32Array;
  private stale = false;

  constructor(trail: Trail, reason: number, terms: readonly Term[], total: number) {
    this.trail = trail;
    this.reason = reason;
    this.terms = terms;
    this.total = total;
    this.root = Int32Array.from(terms, ({ bound }) => trail.bound[bound]);
    this.watches = [...terms.map(({ bound }) => bound), upperOf(total)].map((bound) => ({
      bound,
      datum: 0,
    }));
  }

  notice(): boolean {
    if (this.stale) return false;
    this.stale = true;
    return true;
  }

  propagate(): boolean {
    this.stale = false;
    const { trail, terms, total, reason } = this;
    const { bound } = trail;
    const sum = this.least();
    if (sum > bound[lowerOf(total)] && !trail.raise(lowerOf(total), sum, reason, -1)) return false;
    const spare = -bound[upperOf(total)] - sum;
    for (let k = 0; k < terms.length; k++) {
      const { bound: b, fn } = terms[k];
      const most = fn.back(fn.at(bound[b]) + spare);
      if (-most > bound[b ^ 1] && !trail.raise(b ^ 1, -most, reason, k)) return false;
    }
    return true;
  }

  private least(): number {
    let sum = 0;
    for (const { bound, fn } of this.terms) sum += fn.at(this.trail.bound[bound]);
    return sum;
  }

  explain(_: number, v: number, detail: number, out: Literals): void {
    const { bound } = this.trail;
    const sum = this.least();
    if (detail < 0) {
      this.lifted(sum - v, -1, out);
      return;
    }
    const { bound: b, fn } = this.terms[detail];
    const most = -bound[upperOf(this.total)];
    out.add(upperOf(this.total), -most);
    this.lifted(sum - fn.at(bound[b]) + fn.at(1 - v) - most - 1, detail, out);
  }

  /** The terms but one, each as low as what is to spare allows. */
  private lifted(spare: number, but: number, out: Literals): void {
    let left = spare;
    for (let k = 0; k < this.terms.length; k++) {
      if (k === but) continue;
      const { bound: b, fn } = this.terms[k];
      const own = fn.at(this.trail.bound[b]);
      const least = Math.max(fn.back(own - left - 1) + 1, this.root[k]);
      left -= own - fn.at(least);
      out.add(b, least);
    }
  }

  rewind(): void {
    // Nothing is kept that depends on bounds.
  }

  drop(): void {
    this.stale = false;
  }
}
