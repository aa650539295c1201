import { Literals, upperOf } from '../../propagation/literal.ts';
import type { Network } from '../../propagation/network.ts';
import { ActivityBranching } from '../learning/branching.ts';
import { earliestFirst } from '../learning/dives.ts';
import { LearningSearch, type Event } from '../learning/search.ts';
import type { Search } from '../search.ts';
import type { Built, Layout } from './layout.ts';

/** Sees every learned clause (literals of which one must hold) with the variables' layout; for tests. */
export type ClauseObserver = (clause: Literals, layout: Layout) => void;

/** What a core has done so far: dead ends learned from, rises of bounds. */
export interface Counts {
  readonly conflicts: number;
  readonly propagations: number;
}

/** A search that can be asked what its core has done. */
export interface CountedSearch extends Search {
  counts(): Counts;
}

export interface PureOptions {
  /** Adds the energy rule: fewer conflicts, each several times as dear. For bounds. */
  readonly energy?: boolean;
  /** Bytes that learned clauses may take. */
  readonly clauseBytes?: number;
  readonly observer?: ClauseObserver;
  /** How the first dives go; by earliest start if not given. */
  readonly dive?: (network: Network, tasks: Int32Array) => () => boolean;
}

/** Learning search over starts, the makespan and pair Booleans. */
export class PureSearch {
  private readonly layout: Layout;
  private readonly branching: ActivityBranching;
  private readonly search: LearningSearch;
  private readonly assumed = new Literals();

  constructor({ layout, network }: Built, options: PureOptions) {
    const { clauseBytes, observer } = options;
    this.layout = layout;
    const tasks = Int32Array.from({ length: layout.tasks }, (_, i) => i);
    // Capping the makespan is for bounds, not for plans.
    this.branching = new ActivityBranching(network, {
      dive: (options.dive ?? earliestFirst)(network, tasks),
      quiet: [layout.end],
      phase: 'followed',
    });
    this.search = new LearningSearch(network, this.branching, {
      objective: layout.end,
      ...(clauseBytes === undefined ? {} : { clauseBytes }),
      ...(observer === undefined
        ? {}
        : { observer: (clause: Literals): void => observer(clause, layout) }),
    });
    this.follow(tasks.map((i) => network.trail.bound[2 * i]));
  }

  /** Least makespan of any plan within the target, as proved at the root so far. */
  get bound(): number {
    return this.search.bound;
  }

  /** The plan's starts, after `solution`. */
  get starts(): Int32Array {
    return this.search.values.subarray(0, this.layout.tasks);
  }

  counts(): Counts {
    return { conflicts: this.search.conflicts, propagations: this.search.propagations };
  }

  /** Values to try first. */
  follow(starts: Int32Array): void {
    const { tasks, pairs, end, variables } = this.layout;
    const values = new Int32Array(variables);
    values.set(starts.subarray(0, tasks));
    pairs.forEach(({ first, second }, k) => {
      values[end + 1 + k] = starts[first] < starts[second] ? 1 : 0;
    });
    this.branching.follow(values);
  }

  /** From now on with the makespan assumed to be at most `target`; null: with none assumed. */
  assume(target: number | null): void {
    this.assumed.clear();
    if (target !== null) this.assumed.add(upperOf(this.layout.end), -target);
    this.search.assume(this.assumed);
  }

  /** Begins with dives again; what has been learned stays. */
  diveAgain(): void {
    this.search.diveAgain();
  }

  /** Runs to the next conflict or plan. */
  next(): Event {
    return this.search.next();
  }

  /** From now on only plans with a makespan of at most `target`. False if there are none. */
  tighten(target: number): boolean {
    // With literals of its own: the search's are used up where it thins its clauses on the way.
    this.assumed.clear();
    this.assumed.add(upperOf(this.layout.end), -target);
    return this.search.require(this.assumed);
  }
}
