import { lowerOf, upperOf, type Literals } from '../../../propagation/literal.ts';
import type { Propagator, Watch } from '../../../propagation/propagator.ts';
import type { Trail } from '../../../propagation/trail.ts';
import type { Literal } from './link.ts';

/** What work costs by its start, on top of `base`: `at` gives the extra for each start that is possible. */
interface PriceOf {
  readonly start: number;
  readonly cost: number;
  readonly base: number;
  readonly when: Literal | null;
  /** The least extra of the starts from the first to the second. */
  least(from: number, to: number): number;
}

/**
 * A cost that depends on when work starts, such as overtime: no less than the least over the
 * starts that are left. One look at the starts a run; explanations cite both bounds of the start.
 */
export class Price implements Propagator {
  readonly watches: readonly Watch[];
  readonly cost = 1;
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly of: PriceOf;
  private stale = false;

  constructor(trail: Trail, reason: number, of: PriceOf) {
    this.trail = trail;
    this.reason = reason;
    this.of = of;
    const bounds = [lowerOf(of.start), upperOf(of.start), ...(of.when === null ? [] : [of.when.b])];
    this.watches = bounds.map((bound) => ({ bound, datum: 0 }));
  }

  notice(): boolean {
    if (this.stale) return false;
    this.stale = true;
    return true;
  }

  propagate(): boolean {
    this.stale = false;
    const { trail, of, reason } = this;
    const { bound } = trail;
    if (of.when !== null && bound[of.when.b] < of.when.v) return true;
    const b = lowerOf(of.cost);
    const least = of.base + of.least(bound[lowerOf(of.start)], -bound[upperOf(of.start)]);
    return least <= bound[b] || trail.raise(b, least, reason, 0);
  }

  explain(_: number, __: number, ___: number, out: Literals): void {
    const { bound } = this.trail;
    const { start, when } = this.of;
    out.add(lowerOf(start), bound[lowerOf(start)]);
    out.add(upperOf(start), bound[upperOf(start)]);
    if (when !== null) out.add(when.b, when.v);
  }

  rewind(): void {
    // Nothing is kept that depends on bounds.
  }

  drop(): void {
    this.stale = false;
  }
}
