import type { Plan, ProvedBound } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { PureFrame } from './frame.ts';
import { buildNetwork, closeRoot } from './layout.ts';
import { PureSearch, type CountedSearch, type PureOptions } from './search.ts';

/** Conflicts that a target further than the next may take, and within which one counts as easy. */
const PATIENCE = 1000;
const EASY = 100;

/**
 * Lower bounds of a pure problem by refuting makespans, with the energy rule: a target that no
 * plan meets makes the next one the bound. Steps grow while targets fall easily, and shrink where
 * one resists; the next makespan is tried for as long as it takes. A plan found on the way counts.
 * An iteration is a target opened, a conflict or a plan. Deterministic.
 *
 * R. Klein, A. Scholl, "Computing lower bounds by destructive improvement: an application to
 * resource-constrained project scheduling", EJOR 112 (1999) 322-346.
 */
export function createDestructive(
  problem: Problem,
  _seed: number,
  warmStart: Plan | null,
  options: PureOptions = {},
): CountedSearch {
  return new Destructive(problem, warmStart, options);
}

class Destructive extends PureFrame {
  /** The makespan that is being refuted is `stride - 1` more than the bound. */
  private target = -1;
  private stride = 1;
  private spent = 0;
  private isRooted = false;

  override receive(plan: Plan | null, bounds: readonly ProvedBound[]): void {
    super.receive(plan, bounds);
    if (this.standing.bound > this.target) this.close();
  }

  protected override advance(): void {
    if (!this.isRooted) {
      this.isRooted = true;
      this.openRoot();
    } else if (this.search === null) this.openTarget();
    else this.refute(this.search);
  }

  /** A shorter plan does not change what is being refuted. */
  protected override improved(): void {}

  /** The greatest makespan worth refuting. */
  private get last(): number {
    return this.standing.best === null ? this.model.horizon : this.standing.makespan - 1;
  }

  private openTarget(): void {
    const { standing, model, last } = this;
    this.target = Math.min(standing.bound + this.stride - 1, last);
    this.spent = 0;
    const root = closeRoot(model, this.target);
    if (root === null) {
      this.refuted();
      return;
    }
    this.search = new PureSearch(
      buildNetwork(model, root, this.options.energy !== false),
      this.options,
    );
    if (standing.best !== null) this.search.follow(standing.best);
  }

  private refute(search: PureSearch): void {
    const event = search.next();
    if (event === 'exhausted') this.refuted();
    else if (event === 'solution') {
      this.standing.offer(search.starts.slice());
      this.close();
    } else if (++this.spent >= PATIENCE && this.target > this.standing.bound) {
      this.stride = (this.target - this.standing.bound + 1) >> 1;
      this.close();
    }
    this.raiseBound(Math.min(search.bound, this.target + 1));
  }

  private refuted(): void {
    if (this.target >= this.model.horizon) this.decided = true;
    else this.raiseBound(this.target + 1);
    if (this.spent < EASY) this.stride *= 2;
    this.close();
  }
}
