import type { Plan, ProvedBound, SearchState, SolveStatus } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { FirstPlans } from '../list/firstPlan.ts';
import type { Search } from '../search.ts';
import { closeRoot, leastMakespan, type Root } from './layout.ts';
import { isFeasible, makespanOf, toPureModel, type PureModel } from './pure.ts';
import { LearningSearch, type ClauseObserver } from './search.ts';

/** Lists tried before the search, at least; and at most while there is no plan. */
const LISTS = 20;
const LISTS_WITHOUT_PLAN = 60;

export interface ExactOptions {
  /** Leaves the first plan to the search. */
  readonly withoutLists?: boolean;
  readonly observer?: ClauseObserver;
}

/**
 * Exact search for a pure problem (see `isPure`): root closure, first plans by lists, then
 * learning search with an ever smaller makespan. An iteration is a list, a conflict or a plan.
 * Deterministic in seed and iterations.
 * `infeasible` means: no plan within the problem's horizon.
 */
export function createExact(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  options: ExactOptions = {},
): Search {
  return new Exact(problem, seed, warmStart, options);
}

type Phase = 'root' | 'lists' | 'search' | 'done';

class Exact implements Search {
  private readonly model: PureModel;
  private readonly seed: number;
  private readonly options: ExactOptions;
  private phase: Phase = 'root';
  private root: Root | null = null;
  private lists: FirstPlans | null = null;
  private listsTried = 0;
  private search: LearningSearch | null = null;
  private best: Int32Array | null = null;
  private makespan = 0;
  private plan: Plan | null = null;
  private bound = 0;
  private iterations = 0;

  constructor(problem: Problem, seed: number, warmStart: Plan | null, options: ExactOptions) {
    this.model = toPureModel(problem);
    this.seed = seed;
    this.options = options;
    if (warmStart !== null) this.take(startsOf(this.model, warmStart));
  }

  step(iterations: number): SearchState {
    for (let k = 0; k < iterations && this.phase !== 'done'; k++) {
      this.iterations++;
      this.advance();
    }
    return this.state();
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
      this.exhaust();
      return;
    }
    this.bound = leastMakespan(this.model, this.root);
    this.lists = new FirstPlans(this.model, this.root.distances, this.seed);
    this.phase = this.options.withoutLists === true ? 'search' : 'lists';
    this.finishIfProved();
  }

  private tryList(): void {
    const starts = this.lists?.next() ?? null;
    if (starts !== null) this.take(starts);
    this.listsTried++;
    if (this.listsTried >= (this.best === null ? LISTS_WITHOUT_PLAN : LISTS)) this.phase = 'search';
    this.finishIfProved();
  }

  private searchOn(): void {
    this.search ??= this.openSearch();
    if (this.search === null) {
      this.exhaust();
      return;
    }
    const event = this.search.next();
    if (event === 'plan') {
      this.take(this.search.starts.slice());
      if (!this.search.tighten(this.makespan - 1)) this.exhaust();
    } else if (event === 'exhausted') this.exhaust();
    this.bound = Math.max(this.bound, this.search.bound);
    this.finishIfProved();
  }

  /** Closes the root again under the target that the best plan sets. Null: nothing is better. */
  private openSearch(): LearningSearch | null {
    const root = this.best === null ? this.root : closeRoot(this.model, this.makespan - 1);
    if (root === null) return null;
    const search = new LearningSearch(this.model, root, this.options.observer ?? null);
    if (this.best !== null) search.follow(this.best);
    return search;
  }

  /** Keeps the starts if they are feasible and better than the best so far. */
  private take(starts: Int32Array | null): void {
    if (starts === null || !isFeasible(this.model, starts)) return;
    const makespan = makespanOf(this.model, starts);
    if (this.best !== null && makespan >= this.makespan) return;
    this.best = starts;
    this.makespan = makespan;
    this.plan = toPlan(this.model, starts);
    this.search?.follow(starts);
  }

  private exhaust(): void {
    this.phase = 'done';
    if (this.best !== null) this.bound = this.makespan;
  }

  private finishIfProved(): void {
    if (this.best !== null && this.bound >= this.makespan) this.exhaust();
  }

  private state(): SearchState {
    const done = this.phase === 'done';
    const status = verdict(done, this.best !== null);
    const bound = this.best === null ? this.bound : Math.min(this.bound, this.makespan);
    return {
      status,
      plan: this.plan,
      bounds: boundsOf(bound * this.model.unit * this.model.weight),
      iterations: this.iterations,
      done,
    };
  }
}

/** In a pure problem nothing can be late, cost money or disturb. */
const boundsOf = (bound: number): readonly ProvedBound[] =>
  [0, bound, 0, 0].map((value) => ({ bound: value, caps: [], proof: 'search' }));

function verdict(done: boolean, planned: boolean): SolveStatus {
  if (planned) return done ? 'optimal' : 'feasible';
  return done ? 'infeasible' : 'unknown';
}

/** Starts in steps, rounded down to the common divisor; null if some activity is not placed. */
function startsOf(model: PureModel, plan: Plan): Int32Array | null {
  if (plan.placements.length !== model.count) return null;
  return Int32Array.from(plan.placements, (p) => Math.floor(p.start / model.unit));
}

function toPlan(model: PureModel, starts: Int32Array): Plan {
  const { unit, duration } = model;
  const finish = makespanOf(model, starts) * unit;
  return {
    placements: Array.from(starts, (step, activity) => {
      const start = step * unit;
      const end = start + duration[activity] * unit;
      const segments = start < end ? [{ start, end }] : [];
      return {
        activity,
        mode: 0,
        start,
        finish: end,
        segments,
        crew: [],
        overtime: false,
        slot: null,
      };
    }),
    branches: [],
    finishes: [finish],
    values: [0, finish * model.weight, 0, 0],
  };
}
