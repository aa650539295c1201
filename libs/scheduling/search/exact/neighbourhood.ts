import { random, type Random } from '#kernel/random.ts';
import type { Plan } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { FirstPlans } from '../list/firstPlan.ts';
import { earliestFirst, inOrder } from '../learning/dives.ts';
import { PureFrame } from './frame.ts';
import { closeRoot } from './layout.ts';
import { Parts } from './part.ts';
import { PureSearch, type CountedSearch, type PureOptions } from './search.ts';

/** Lists tried first. */
const LISTS = 20;
/** Conflicts that a part may take. */
const PATIENCE = 300;
/** Activities let loose at first, and at least. */
const FIRST = 25;
const FEWEST = 8;
/** How far sideways steps stray from the order of starts, as a share of the makespan. */
const SHUFFLE = 0.2;

/**
 * Large-neighbourhood search for a pure problem: some activities of the best plan are let loose,
 * all others keep their order, and the learning core looks for a shorter plan of that kind.
 * P. Shaw, "Using constraint programming and local search methods to solve vehicle routing
 * problems", CP 1998; windows of time over a partial-order schedule after D. Godard, P. Laborie,
 * W. Nuijten, "Randomized large neighborhood search for cumulative scheduling", ICAPS 2005.
 *
 * How many are let loose follows how hard the parts turn out. An iteration is a list, a part
 * opened, a conflict or a plan. Deterministic in seed, iterations and what it receives when.
 */
export function createNeighbourhood(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  options: PureOptions = {},
): CountedSearch {
  return new Neighbourhood(problem, seed, warmStart, options);
}

class Neighbourhood extends PureFrame {
  private readonly rng: Random;
  private readonly seed: number;
  private lists: FirstPlans | null = null;
  private listsTried = 0;
  private parts: Parts | null = null;
  /** The plan that parts are made from: as short as the best. */
  private base: Int32Array | null;
  private isSideways = false;
  private spent = 0;
  private size = FIRST;

  constructor(problem: Problem, seed: number, warmStart: Plan | null, options: PureOptions) {
    super(problem, warmStart, options);
    this.seed = seed;
    this.rng = random(seed);
    this.base = this.standing.best;
  }

  protected override advance(): void {
    if (this.lists === null) this.openLists();
    else if (this.listsTried < LISTS || this.base === null) {
      this.listsTried++;
      if (this.standing.offer(this.lists.next())) this.improved();
    } else if (this.search === null) this.openPart(this.base);
    else this.searchOn(this.search);
  }

  private openLists(): void {
    const root = this.openRoot();
    if (root !== null) this.lists = new FirstPlans(this.model, root.distances, this.seed);
  }

  private openPart(base: Int32Array): void {
    const { model, standing } = this;
    const { makespan } = standing;
    if (this.parts === null) {
      const root = closeRoot(model, makespan);
      if (root === null) throw new Error('the best plan is none');
      this.parts = new Parts(model, root);
    }
    const built = this.parts.build(base, this.choose(base), makespan);
    const sideways = this.shuffled(base);
    this.isSideways = false;
    this.spent = 0;
    this.search = new PureSearch(built, {
      ...this.options,
      dive: (network, tasks) => {
        const strict = earliestFirst(network, tasks);
        const loosely = inOrder(network, sideways);
        return () => (this.isSideways ? loosely() : strict());
      },
    });
    this.search.follow(base);
    this.search.assume(makespan - 1);
  }

  /** All activities in the order of their starts, more or less. */
  private shuffled(base: Int32Array): Int32Array {
    const noise = SHUFFLE * this.standing.makespan;
    const key = Float64Array.from(base, (start) => start + this.rng.unit() * noise);
    return Int32Array.from(base, (_, i) => i).sort((a, b) => key[a] - key[b]);
  }

  private searchOn(search: PureSearch): void {
    const event = search.next();
    this.spent++;
    if (event === 'solution') this.takeSolution(search);
    else if (this.isSideways) {
      if (event !== 'conflict' || this.spent >= PATIENCE) this.close();
    } else if (event !== 'conflict') {
      if (this.spent < PATIENCE / 4) this.size = Math.min(this.model.count, this.size + 1);
      this.goSideways(search);
    } else if (this.spent >= PATIENCE) {
      this.size = Math.max(FEWEST, this.size - 1);
      this.goSideways(search);
    }
  }

  private takeSolution(search: PureSearch): void {
    const starts = search.starts.slice();
    if (this.standing.offer(starts)) this.improved();
    else {
      this.base = starts;
      this.close();
    }
  }

  /** Nothing shorter was found: another plan as short will do. */
  private goSideways(search: PureSearch): void {
    this.isSideways = true;
    this.spent = 0;
    search.assume(null);
    search.diveAgain();
  }

  /** The plan got better: the part goes on below it, the next one starts from it. */
  protected override improved(): void {
    const { best, makespan } = this.standing;
    this.base = best;
    this.parts = null;
    this.spent = 0;
    this.isSideways = false;
    if (this.search === null || best === null) return;
    this.search.follow(best);
    this.search.assume(makespan - 1);
  }

  /** 1 for each activity let loose: those in a window of time. */
  private choose(starts: Int32Array): Uint8Array {
    const { count, duration } = this.model;
    const middle = this.rng.unit() * this.standing.makespan;
    const order = Array.from(starts, (_, i) => i);
    const away = order.map(
      (i) => Math.abs(2 * starts[i] + duration[i] - 2 * middle) + this.rng.unit(),
    );
    order.sort((a, b) => away[a] - away[b]);
    const loose = new Uint8Array(count);
    for (const i of order.slice(0, this.size)) loose[i] = 1;
    return loose;
  }
}
