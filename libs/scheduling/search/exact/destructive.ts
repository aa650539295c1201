import type { Plan, ProvedBound, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { buildNetwork, closeRoot, leastMakespan } from './layout.ts';
import { toPureModel, type PureModel } from './pure.ts';
import { PureSearch, type Counts, type CountedSearch, type PureOptions } from './search.ts';
import { Standing } from './standing.ts';

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

class Destructive implements CountedSearch {
  private readonly model: PureModel;
  private readonly options: PureOptions;
  private readonly standing: Standing;
  private search: PureSearch | null = null;
  /** The makespan that is being refuted is `stride - 1` more than the bound. */
  private target = -1;
  private stride = 1;
  private spent = 0;
  private isRooted = false;
  private decided = false;
  private iterations = 0;
  private conflicts = 0;
  private propagations = 0;

  constructor(problem: Problem, warmStart: Plan | null, options: PureOptions) {
    this.model = toPureModel(problem);
    this.options = options;
    this.standing = new Standing(this.model);
    if (warmStart !== null) this.standing.offerPlan(warmStart);
  }

  step(iterations: number): SearchState {
    for (let k = 0; k < iterations && !this.decided; k++) {
      this.iterations++;
      this.advance();
      if (this.standing.isProved) this.decided = true;
    }
    return this.standing.state(this.iterations, this.decided);
  }

  receive(plan: Plan | null, bounds: readonly ProvedBound[]): void {
    if (plan !== null) this.standing.offerPlan(plan);
    this.standing.raiseTo(bounds);
    if (this.standing.bound > this.target) this.close();
    if (this.standing.isProved) this.decided = true;
  }

  counts(): Counts {
    const now = this.search?.counts() ?? { conflicts: 0, propagations: 0 };
    return {
      conflicts: this.conflicts + now.conflicts,
      propagations: this.propagations + now.propagations,
    };
  }

  private advance(): void {
    if (!this.isRooted) this.openRoot();
    else if (this.search === null) this.openTarget();
    else this.refute(this.search);
  }

  private openRoot(): void {
    this.isRooted = true;
    const root = closeRoot(this.model, this.model.horizon);
    if (root === null) this.decided = true;
    else this.standing.bound = Math.max(this.standing.bound, leastMakespan(this.model, root));
  }

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
    this.standing.bound = Math.max(this.standing.bound, Math.min(search.bound, this.target + 1));
  }

  private refuted(): void {
    if (this.target >= this.model.horizon) this.decided = true;
    else this.standing.bound = Math.max(this.standing.bound, this.target + 1);
    if (this.spent < EASY) this.stride *= 2;
    this.close();
  }

  private close(): void {
    const { conflicts, propagations } = this.counts();
    this.conflicts = conflicts;
    this.propagations = propagations;
    this.search = null;
  }
}
