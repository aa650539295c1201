import type { Plan, ProvedBound, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { closeRoot, leastMakespan, type Root } from './layout.ts';
import { toPureModel, type PureModel } from './pure.ts';
import type { Counts, CountedSearch, PureOptions, PureSearch } from './search.ts';
import { Standing } from './standing.ts';

/**
 * What the searches of a pure problem have in common: the best plan and bound, the core's search
 * that is open, and counting. A search ends when it is decided, which it is at the latest when its
 * bound meets its plan; from then on nothing that it is told changes it.
 */
export abstract class PureFrame implements CountedSearch {
  protected readonly model: PureModel;
  protected readonly options: PureOptions;
  protected readonly standing: Standing;
  protected search: PureSearch | null = null;
  /** The best plan is an optimal one or, without one, there is none. */
  protected decided = false;
  private iterations = 0;
  /** Of the searches closed. */
  private conflicts = 0;
  private propagations = 0;

  constructor(problem: Problem, warmStart: Plan | null, options: PureOptions) {
    this.model = toPureModel(problem);
    this.options = options;
    this.standing = new Standing(this.model);
    if (warmStart !== null) this.standing.offerPlan(warmStart);
  }

  /** One iteration. */
  protected abstract advance(): void;

  /** The best plan got better, by the search itself or from elsewhere. */
  protected abstract improved(): void;

  step(iterations: number): SearchState {
    for (let k = 0; k < iterations && !this.decided; k++) {
      this.iterations++;
      this.advance();
      this.endIfProved();
    }
    return this.standing.state(this.iterations, this.decided);
  }

  receive(plan: Plan | null, bounds: readonly ProvedBound[]): void {
    if (this.decided) return;
    if (plan !== null && this.standing.offerPlan(plan)) this.improved();
    this.standing.raiseTo(bounds);
    this.endIfProved();
  }

  counts(): Counts {
    const open = this.search?.counts() ?? { conflicts: 0, propagations: 0 };
    return {
      conflicts: this.conflicts + open.conflicts,
      propagations: this.propagations + open.propagations,
    };
  }

  /** The root under the horizon, with what it says of the bound; null, and decided: there is no plan. */
  protected openRoot(): Root | null {
    const { model } = this;
    const root = closeRoot(model, model.horizon);
    if (root === null) this.decided = true;
    else this.raiseBound(leastMakespan(model, root));
    return root;
  }

  protected raiseBound(bound: number): void {
    this.standing.bound = Math.max(this.standing.bound, bound);
  }

  protected close(): void {
    const { conflicts, propagations } = this.counts();
    this.conflicts = conflicts;
    this.propagations = propagations;
    this.search = null;
  }

  private endIfProved(): void {
    if (this.standing.isProved) this.decided = true;
  }
}
