import type { Plan } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { FirstPlans } from '../list/firstPlan.ts';
import { PureFrame } from './frame.ts';
import { buildNetwork, closeRoot, type Root } from './layout.ts';
import { PureSearch, type CountedSearch, type PureOptions } from './search.ts';

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

class Exact extends PureFrame {
  private readonly seed: number;
  /** Lists are still to be tried. */
  private isListing: boolean;
  private root: Root | null = null;
  private lists: FirstPlans | null = null;
  private listsTried = 0;

  constructor(problem: Problem, seed: number, warmStart: Plan | null, options: ExactOptions) {
    super(problem, warmStart, options);
    this.seed = seed;
    this.isListing = options.withoutLists !== true;
  }

  protected override advance(): void {
    if (this.root === null) this.root = this.openRoot();
    else if (this.isListing) this.tryList(this.root);
    else this.searchOn(this.root);
  }

  private tryList({ distances }: Root): void {
    this.lists ??= new FirstPlans(this.model, distances, this.seed);
    this.standing.offer(this.lists.next());
    this.listsTried++;
    const limit = this.standing.best === null ? LISTS_WITHOUT_PLAN : LISTS;
    this.isListing = this.listsTried < limit;
  }

  private searchOn(root: Root): void {
    this.search ??= this.openSearch(root);
    if (this.search === null) {
      this.decided = true;
      return;
    }
    const event = this.search.next();
    if (event === 'solution') {
      if (!this.standing.offer(this.search.starts.slice()))
        throw new Error('the search gave a plan that is none, or no better one');
      this.improved();
    } else if (event === 'exhausted') this.decided = true;
    this.raiseBound(this.search.bound);
  }

  /** Closes the root again under the target that the best plan sets. Null: nothing is better. */
  private openSearch(horizonRoot: Root): PureSearch | null {
    const { best, makespan } = this.standing;
    const root = best === null ? horizonRoot : closeRoot(this.model, makespan - 1);
    if (root === null) return null;
    const search = new PureSearch(
      buildNetwork(this.model, root, this.options.energy === true),
      this.options,
    );
    if (best !== null) search.follow(best);
    return search;
  }

  /** From now on the search is for something better than the best plan. */
  protected override improved(): void {
    const { best, makespan } = this.standing;
    if (this.search === null || best === null) return;
    this.search.follow(best);
    if (!this.search.tighten(makespan - 1)) this.decided = true;
  }
}
