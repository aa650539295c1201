import type { Plan, ProvedBound, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { FirstPlans } from '../list/firstPlan.ts';
import { buildNetwork, closeRoot, leastMakespan, type Root } from './layout.ts';
import { toPureModel, type PureModel } from './pure.ts';
import { PureSearch, type CountedSearch, type Counts, type PureOptions } from './search.ts';
import { Standing } from './standing.ts';

/** Lists tried before the search, at least; and at most while there is no plan. */
const LISTS = 20;
const LISTS_WITHOUT_PLAN = 60;

export interface ExactOptions extends PureOptions {
  /** Leaves the first plan to the search. */
  readonly withoutLists?: boolean;
}

/**
 * Exact search for a pure problem (see `isPure`): root closure, first plans by lists, then
 * learning search with an ever smaller makespan. An iteration is a list, a conflict or a plan.
 * Deterministic in seed, iterations and what it receives when.
 * `infeasible` means: no plan within the problem's horizon.
 */
export function createExact(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  options: ExactOptions = {},
): CountedSearch {
  return new Exact(problem, seed, warmStart, options);
}

type Phase = 'root' | 'lists' | 'search' | 'done';

class Exact implements CountedSearch {
  private readonly model: PureModel;
  private readonly seed: number;
  private readonly options: ExactOptions;
  private readonly standing: Standing;
  private phase: Phase = 'root';
  private root: Root | null = null;
  private lists: FirstPlans | null = null;
  private listsTried = 0;
  private search: PureSearch | null = null;
  private iterations = 0;

  constructor(problem: Problem, seed: number, warmStart: Plan | null, options: ExactOptions) {
    this.model = toPureModel(problem);
    this.seed = seed;
    this.options = options;
    this.standing = new Standing(this.model);
    if (warmStart !== null) this.standing.offerPlan(warmStart);
  }

  step(iterations: number): SearchState {
    for (let k = 0; k < iterations && this.phase !== 'done'; k++) {
      this.iterations++;
      this.advance();
    }
    return this.standing.state(this.iterations, this.phase === 'done');
  }

  receive(plan: Plan | null, bounds: readonly ProvedBound[]): void {
    if (this.phase === 'done') return;
    if (plan !== null && this.standing.offerPlan(plan)) this.beatBest();
    this.standing.raiseTo(bounds);
    this.finishIfProved();
  }

  counts(): Counts {
    return this.search?.counts() ?? { conflicts: 0, propagations: 0 };
  }

  private advance(): void {
    switch (this.phase) {
      case 'root':
        this.closeRoot();
        break;
      case 'lists':
        this.tryList();
        break;
      case 'search':
        this.searchOn();
        break;
      case 'done':
    }
  }

  private closeRoot(): void {
    this.root = closeRoot(this.model, this.model.horizon);
    if (this.root === null) {
      this.phase = 'done';
      return;
    }
    const { standing } = this;
    standing.bound = Math.max(standing.bound, leastMakespan(this.model, this.root));
    this.lists = new FirstPlans(this.model, this.root.distances, this.seed);
    this.phase = this.options.withoutLists === true ? 'search' : 'lists';
    this.finishIfProved();
  }

  private tryList(): void {
    this.standing.offer(this.lists?.next() ?? null);
    this.listsTried++;
    const limit = this.standing.best === null ? LISTS_WITHOUT_PLAN : LISTS;
    if (this.listsTried >= limit) this.phase = 'search';
    this.finishIfProved();
  }

  private searchOn(): void {
    const { standing } = this;
    this.search ??= this.openSearch();
    if (this.search === null) {
      this.phase = 'done';
      return;
    }
    const event = this.search.next();
    if (event === 'solution') {
      if (!standing.offer(this.search.starts.slice()))
        throw new Error('the search gave a plan that is none, or no better one');
      this.beatBest();
    } else if (event === 'exhausted') this.phase = 'done';
    standing.bound = Math.max(standing.bound, this.search.bound);
    this.finishIfProved();
  }

  /** Closes the root again under the target that the best plan sets. Null: nothing is better. */
  private openSearch(): PureSearch | null {
    const { best, makespan } = this.standing;
    const root = best === null ? this.root : closeRoot(this.model, makespan - 1);
    if (root === null) return null;
    const search = new PureSearch(
      buildNetwork(this.model, root, this.options.energy === true),
      this.options,
    );
    if (best !== null) search.follow(best);
    return search;
  }

  /** From now on the search is for something better than the best plan. */
  private beatBest(): void {
    const { best, makespan } = this.standing;
    if (this.search === null || best === null) return;
    this.search.follow(best);
    if (!this.search.tighten(makespan - 1)) this.phase = 'done';
  }

  private finishIfProved(): void {
    if (this.standing.isProved) this.phase = 'done';
  }
}
