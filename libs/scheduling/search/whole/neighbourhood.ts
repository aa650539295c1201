import { random as seeded, type Random } from '#kernel/random.ts';
import type { RootProof } from '../../bounds/root.ts';
import type { Plan, ProvedBound, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { Literals, upperOf } from '../../propagation/literal.ts';
import { incumbent } from '../incumbent.ts';
import { ActivityBranching } from '../learning/branching.ts';
import { LearningSearch } from '../learning/search.ts';
import type { CountedSearch, WholeOptions } from './whole.ts';
import { focusOn } from './model/focus.ts';
import { isMade, PIECES, SLICE, type Steps } from './model/steps.ts';
import { wholeInSteps, type WholeModel } from './model/whole.ts';
import { stockOf, type Stock } from './model/ground.ts';
import { enteredInSteps } from './enter.ts';
import { planOf } from './plan.ts';
import { diveOf, type Preference } from './search/dive.ts';
import { regionsOf, type Region } from './search/regions.ts';

const RANKS = 4;
const FEWEST = 6;
const MOST = 40;
/** Conflicts a neighbourhood may cost before it is left. */
const BUDGET = 150;
/** How much a kind of region that found something counts for more, and one that did not for less. */
const REWARD = 0.3;
const FADE = 0.97;
/** Order is open towards what the plan has within so many minutes of what is freed, one of these. */
const REACHES = [240, 960, 2880];

/**
 * Large-neighbourhood search from a plan: a part of it is set free, the rest keeps its people and
 * its order but not its times, and the learning core looks for a better plan among what is left.
 * The kind of part is drawn by what it has brought, its size grows where parts are soon exhausted
 * and shrinks where they are not (P. Shaw, CP 1998; P. Laborie, D. Godard, MISTA 2007, for
 * the partial order that is kept and the adaptive choice). An iteration is a conflict, a plan, a
 * slice of work without either, or a few pieces of the setting-up of a part. Proves nothing by itself.
 */
export function createWholeNeighbourhood(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  root: RootProof | null,
  options: WholeOptions = {},
): CountedSearch {
  return new Neighbourhood(problem, seed, warmStart, root, options);
}

interface Running {
  readonly model: WholeModel;
  readonly search: LearningSearch;
  readonly branching: ActivityBranching;
  readonly preference: Preference;
  readonly kind: number;
  readonly rank: number;
  /** The most that the rank may be in the next plan. */
  target: number;
  left: number;
  found: boolean;
}

class Neighbourhood implements CountedSearch {
  private readonly problem: Problem;
  private readonly options: WholeOptions;
  private readonly random: Random;
  private readonly best: ReturnType<typeof incumbent>;
  private readonly bounds: ProvedBound[];
  private readonly scratch = new Literals();
  /** The warm start that is taken, and the part that is set up, a few pieces an iteration. */
  private taking: Steps<void> | null;
  private making: Steps<void> | null = null;
  private regions: Region[] | null = null;
  private weights: Float64Array = new Float64Array(0);
  private stock: Stock | null = null;
  private size = 16;
  /** Ranks whose worth is too large a number for a network. */
  private readonly unwritten = new Set<number>();
  private running: Running | null = null;
  private iterations = 0;
  private conflicts = 0;
  private propagations = 0;

  constructor(
    problem: Problem,
    seed: number,
    warm: Plan | null,
    root: RootProof | null,
    options: WholeOptions,
  ) {
    this.problem = problem;
    this.options = options;
    this.random = seeded(seed);
    this.best = incumbent(problem.tolerances);
    this.bounds = Array.from({ length: RANKS }, () => ({ bound: 0, caps: [], proof: 'none' }));
    this.taking = warm === null ? null : this.take(warm);
    this.receive(null, root?.bounds ?? []);
  }

  counts(): { conflicts: number; propagations: number } {
    return { conflicts: this.conflicts, propagations: this.propagations };
  }

  leading(): readonly Plan[] {
    return this.best.leading;
  }

  receive(plan: Plan | null, bounds: readonly ProvedBound[]): void {
    if (plan !== null && this.best.offer(plan.values, () => plan)) {
      this.running = null;
      this.making = null;
    }
    bounds.forEach((one, r) => {
      const holds = one.caps.every((cap, e) => this.best.cap(e) <= cap);
      if (holds && one.bound > this.bounds[r].bound) this.bounds[r] = one;
    });
  }

  step(count: number): SearchState {
    for (let k = 0; k < count; k += 1) {
      this.iterations += 1;
      if (this.taking !== null) {
        if (isMade(this.taking)) this.taking = null;
      } else if (this.making !== null) {
        if (isMade(this.making)) this.making = null;
      } else if (this.running !== null) this.goOn(this.running);
      else if (this.best.plan !== null) this.making = this.begin(this.best.plan);
    }
    const { plan } = this.best;
    return {
      status: plan === null ? 'unknown' : 'feasible',
      plan,
      bounds: this.bounds.slice(),
      iterations: this.iterations,
      done: false,
    };
  }

  /** The plan to start from, if this problem allows it. */
  private *take(warm: Plan): Steps<void> {
    this.stock ??= stockOf(this.problem);
    const plan = yield* enteredInSteps(this.problem, warm, this.stock);
    if (plan !== null) this.best.offer(plan.values, () => plan);
  }

  /** The first rank that may still be less; now and then a later one. */
  private rankToImprove(): number {
    const open: number[] = [];
    for (let r = 0; r < RANKS; r += 1)
      if (this.best.least[r] > this.bounds[r].bound && !this.unwritten.has(r)) open.push(r);
    const [first = -1] = open;
    return open.length > 1 && this.random.below(5) === 0
      ? open[1 + this.random.below(open.length - 1)]
      : first;
  }

  private kindToTry(): number {
    const { weights } = this;
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    let at = (this.random.below(1 << 20) / (1 << 20)) * all;
    let kind = 0;
    while (kind < weights.length - 1 && at >= weights[kind]) at -= weights[kind++];
    return kind;
  }

  private *begin(plan: Plan): Steps<void> {
    const { problem, options } = this;
    this.regions ??= regionsOf(problem);
    if (this.weights.length === 0) this.weights = new Float64Array(this.regions.length).fill(1);
    this.stock ??= stockOf(problem);
    const rank = this.rankToImprove();
    if (rank < 0) return;
    const kind = this.kindToTry();
    const freed = this.regions[kind](plan, this.size, this.random);
    const reach = REACHES[this.random.below(REACHES.length)];
    const model = yield* wholeInSteps(problem, focusOn(plan, freed, reach), this.stock);
    // Where the worth of a rank is too large a number to be written down, others improve it.
    if (model.ranks[rank] === null) this.unwritten.add(rank);
    if (!model.isManned || model.ranks[rank] === null) return;
    yield;
    const { network, ranks } = model;
    const preference: Preference = { values: null };
    const dive = diveOf(model, preference);
    const quiet = ranks.filter((x) => x !== null);
    const branching = new ActivityBranching(network, { dive, quiet, phase: 'followed' });
    const search = new LearningSearch(network, branching, {
      objective: null,
      ...(options.clauseBytes === undefined ? {} : { clauseBytes: options.clauseBytes }),
    });
    const left = BUDGET;
    const running = {
      model,
      search,
      branching,
      preference,
      kind,
      rank,
      target: this.best.least[rank],
      left,
      found: false,
    };
    this.running = running;
    yield;
    for (let r = 0; r < rank; r += 1) {
      while (!search.prepare(SLICE)) yield PIECES;
      if (!this.cap(running, r, this.best.cap(r))) return;
    }
    while (!search.prepare(SLICE)) yield PIECES;
    this.aim(running);
  }

  /** From now on a rank is no more than this; false, and the part is left, where that cannot be. */
  private cap(running: Running, rank: number, most: number): boolean {
    const x = running.model.ranks[rank];
    if (x === null) return true;
    this.scratch.clear();
    this.scratch.add(upperOf(x), -most);
    if (running.search.require(this.scratch)) return true;
    this.leave(running, true);
    return false;
  }

  private aim(running: Running): void {
    const { rank } = running;
    running.target = this.best.least[rank] - 1;
    this.cap(running, rank, running.target);
  }

  private goOn(running: Running): void {
    const { search, model, branching, preference } = running;
    const before = search.propagations;
    const event = search.advance(SLICE);
    this.propagations += search.propagations - before;
    if (event === 'conflict') {
      this.conflicts += 1;
      running.left -= 1;
      if (running.left <= 0) this.leave(running, false);
    } else if (event === 'solution') {
      const plan = planOf(model, search.values);
      preference.values = search.values.slice();
      branching.follow(search.values);
      this.best.offer(plan.values, () => plan);
      const value = plan.values[running.rank];
      if (value > running.target || this.best.least[running.rank] > value) {
        // Not taken, for a rank or people of whom the network does not know: it would come again.
        this.leave(running, false);
        return;
      }
      running.found = true;
      running.left = BUDGET;
      this.aim(running);
    } else if (event !== 'open') this.leave(running, true);
  }

  private leave(running: Running, exhausted: boolean): void {
    const { kind, found } = running;
    this.weights[kind] = Math.max(0.1, this.weights[kind] * FADE + (found ? REWARD : 0));
    if (exhausted) this.size = Math.min(MOST, this.size + (found ? 0 : 2));
    else if (!found) this.size = Math.max(FEWEST, this.size - 2);
    this.running = null;
  }
}
