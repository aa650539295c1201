import type { RootProof } from '../../bounds/root.ts';
import type { Plan, ProvedBound, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { Literals, lowerOf, upperOf } from '../../propagation/literal.ts';
import { incumbent } from '../incumbent.ts';
import { ActivityBranching } from '../learning/branching.ts';
import { LearningSearch, type ClauseObserver } from '../learning/search.ts';
import type { Search } from '../search.ts';
import { isMade, PIECES, SLICE, type Steps } from './model/steps.ts';
import { wholeInSteps, type WholeModel } from './model/whole.ts';
import { enteredInSteps } from './enter.ts';
import { stockOf } from './model/ground.ts';
import { planOf } from './plan.ts';
import { diveOf, type Preference } from './search/dive.ts';

const RANKS = 4;
/** Conflicts after which a bold target is given up for a nearer one. */
const PATIENCE = 120;

export interface WholeOptions {
  readonly observer?: ClauseObserver;
  /** Bytes that learned clauses may take. */
  readonly clauseBytes?: number;
}

export interface CountedSearch extends Search {
  counts(): { readonly conflicts: number; readonly propagations: number };
}

type Stage = 'setup' | 'search' | 'optimal' | 'infeasible' | 'stuck';

/**
 * The whole problem by learning search: rank after rank is minimised with the earlier ones capped,
 * each cap an assumption, so that what is learned holds in every stage. Ends with a proof, but gives
 * up where crews are left out of the network, and at a rank that is.
 * An iteration is a conflict, a plan, a slice of work without either, or a few pieces of the setting
 * up.
 */
export function createWhole(
  problem: Problem,
  _seed: number,
  warmStart: Plan | null,
  root: RootProof | null,
  options: WholeOptions = {},
): CountedSearch {
  return new Whole(problem, warmStart, root, options);
}

class Whole implements CountedSearch {
  private readonly problem: Problem;
  private readonly options: WholeOptions;
  private readonly best: ReturnType<typeof incumbent>;
  private readonly proved: ProvedBound[];
  private readonly preference: Preference = { values: null };
  private readonly assumed = new Literals();
  private readonly setting: Steps<void>;
  private stage: Stage = 'setup';
  private rank = 0;
  private model: WholeModel | null = null;
  private search: LearningSearch | null = null;
  private branching: ActivityBranching | null = null;
  private stale = true;
  /** By how much the next plan shall be better: twice as much after each that was found. */
  private stride = 1;
  private target = 0;
  private givenUpAt = 0;
  /** Whether facts rest on the best plan: only then does it follow that there is no better one. */
  private isClosed = false;
  private iterations = 0;

  constructor(problem: Problem, warm: Plan | null, root: RootProof | null, options: WholeOptions) {
    this.problem = problem;
    this.options = options;
    this.best = incumbent(problem.tolerances);
    this.proved = Array.from({ length: RANKS }, () => ({ bound: 0, caps: [], proof: 'none' }));
    if (root !== null) this.takeBounds(root.bounds);
    if (root?.infeasible === true) this.stage = 'infeasible';
    this.setting = this.setUp(warm);
  }

  counts(): { conflicts: number; propagations: number } {
    const { search } = this;
    return { conflicts: search?.conflicts ?? 0, propagations: search?.propagations ?? 0 };
  }

  leading(): readonly Plan[] {
    return this.best.leading;
  }

  receive(plan: Plan | null, bounds: readonly ProvedBound[]): void {
    if (plan !== null) {
      // The same plan comes again and again: only what changes the least values is a reason to aim anew.
      const { least } = this.best;
      this.best.offer(plan.values, () => plan);
      if (this.best.least.some((value, r) => value !== least[r])) this.stale = true;
    }
    this.takeBounds(bounds);
  }

  /** What others have proved, where it holds under the caps that are kept here. */
  private takeBounds(bounds: readonly ProvedBound[]): void {
    bounds.forEach((one, r) => {
      if (one.bound <= this.proved[r].bound) return;
      const holds = one.caps.every((cap, e) => this.best.cap(e) <= cap);
      if (!holds) return;
      this.proved[r] = one;
      this.stale = true;
    });
  }

  step(count: number): SearchState {
    for (let k = 0; k < count && (this.stage === 'setup' || this.stage === 'search'); k += 1) {
      this.iterations += 1;
      this.advance();
      this.report();
    }
    return this.state();
  }

  private advance(): void {
    if (this.stage === 'setup') {
      if (isMade(this.setting)) this.stage = this.search === null ? 'stuck' : 'search';
      return;
    }
    const { search } = this;
    if (search === null) return;
    if (search.conflicts >= this.givenUpAt && this.stride > 1) {
      this.stride = Math.max(1, this.stride >> 3);
      this.stale = true;
    }
    if (this.stale && !this.aim()) return;
    switch (search.advance(SLICE)) {
      case 'solution':
        this.found(search.values);
        break;
      case 'refuted':
        this.close();
        break;
      case 'exhausted':
        this.exhaust();
        break;
      case 'conflict':
      case 'open':
    }
  }

  private *setUp(warm: Plan | null): Steps<void> {
    const stock = stockOf(this.problem);
    const known = warm === null ? null : yield* enteredInSteps(this.problem, warm, stock);
    if (known !== null) this.best.offer(known.values, () => known);
    const model = yield* wholeInSteps(this.problem, null, stock);
    // Crews left out make some work shorter than it can be: nothing follows from that network.
    if (!model.isManned) return;
    yield;
    const { network } = model;
    const quiet = model.ranks.filter((x) => x !== null);
    const dive = diveOf(model, this.preference);
    this.branching = new ActivityBranching(network, { dive, quiet, phase: 'followed' });
    const { observer, clauseBytes } = this.options;
    this.search = new LearningSearch(network, this.branching, {
      objective: null,
      ...(observer === undefined ? {} : { observer }),
      ...(clauseBytes === undefined ? {} : { clauseBytes }),
    });
    while (!this.search.prepare(SLICE)) yield PIECES;
    this.model = model;
  }

  /** Whether all plans are worth the same in the later ranks: then only this one is left to improve. */
  private isLast(): boolean {
    for (let r = this.rank + 1; r < RANKS; r += 1) {
      const x = this.model?.ranks[r] ?? null;
      if (x === null || this.atRoot(lowerOf(x)) < -this.atRoot(upperOf(x))) return false;
    }
    return true;
  }

  /** Sets what is assumed: earlier ranks within their caps, the present one better than the best plan. False when done. */
  private aim(): boolean {
    const { model, search, best, assumed } = this;
    this.stale = false;
    if (model === null || search === null) return false;
    assumed.clear();
    if (best.plan === null) {
      search.assume(assumed);
      return true;
    }
    while (this.rank < RANKS && this.isProved()) {
      const caps = Array.from({ length: this.rank }, (_, e) => best.cap(e));
      if (this.proved[this.rank].bound < best.least[this.rank])
        this.proved[this.rank] = { bound: best.least[this.rank], caps, proof: 'search' };
      this.rank += 1;
      this.stride = 1;
    }
    if (this.rank === RANKS) {
      this.stage = 'optimal';
      return false;
    }
    const x = model.ranks[this.rank];
    if (x === null) {
      this.stage = 'stuck';
      return false;
    }
    this.givenUpAt = search.conflicts + PATIENCE;
    const least = best.least[this.rank];
    const known = Math.max(this.proved[this.rank].bound, this.rootBound(this.rank));
    this.target = Math.max(known, least - this.stride);
    const caps: [number, number][] = [];
    model.ranks.slice(0, this.rank).forEach((earlier, r) => {
      if (earlier !== null) caps.push([upperOf(earlier), -best.cap(r)]);
    });
    if (this.isLast()) {
      // Nothing that is worth more will be looked for again: the caps are facts from now on.
      this.isClosed = true;
      for (const [b, v] of [...caps, [upperOf(x), 1 - least]]) {
        assumed.clear();
        assumed.add(b, v);
        if (search.require(assumed)) continue;
        this.exhaust();
        return false;
      }
      caps.length = 0;
    }
    assumed.clear();
    for (const [b, v] of caps) assumed.add(b, v);
    assumed.add(upperOf(x), -this.target);
    search.assume(assumed);
    return true;
  }

  private isProved(): boolean {
    const least = this.best.least[this.rank];
    return least <= Math.max(this.proved[this.rank].bound, this.rootBound(this.rank));
  }

  /** The least that a rank can be, by what holds at the root. */
  private rootBound(rank: number): number {
    const x = this.model?.ranks[rank] ?? null;
    return x === null ? 0 : this.atRoot(lowerOf(x));
  }

  /** A bound as it is at the root. */
  private atRoot(b: number): number {
    if (this.search === null) return 0;
    const { trail } = this.search.network;
    let value = trail.bound[b];
    for (let p = trail.latest[b]; p >= 0; p = trail.entryPrevious[p]) value = trail.entryOld[p];
    return value;
  }

  private found(values: Int32Array): void {
    const { model, search, branching } = this;
    if (model === null || search === null) return;
    const plan = planOf(model, values);
    this.preference.values = values.slice();
    branching?.follow(values);
    const least = this.best.least[this.rank];
    this.best.offer(plan.values, () => plan);
    if (this.best.least[this.rank] === least) {
      // Worth more than the network knows of, or asked for again: it would come for ever.
      this.stage = 'stuck';
      return;
    }
    this.stride = Math.max(2 * this.stride, this.best.least[this.rank] >> 8);
    this.stale = true;
  }

  /** The present rank cannot be as little as the target, its earlier ones capped. */
  private close(): void {
    const caps = Array.from({ length: this.rank }, (_, e) => this.best.cap(e));
    const bound = this.target + 1;
    if (bound > this.proved[this.rank].bound)
      this.proved[this.rank] = { bound, caps, proof: 'search' };
    this.stride = Math.max(1, (this.best.least[this.rank] - bound) >> 2);
    this.stale = true;
  }

  private exhaust(): void {
    if (this.best.plan === null) {
      this.stage = 'infeasible';
      return;
    }
    if (!this.isClosed) {
      // A plan that others found is none of the network's.
      this.stage = 'stuck';
      return;
    }
    for (let r = this.rank; r < RANKS; r += 1) {
      const caps = Array.from({ length: r }, (_, e) => this.best.cap(e));
      if (this.proved[r].bound < this.best.least[r])
        this.proved[r] = { bound: this.best.least[r], caps, proof: 'search' };
    }
    this.stage = 'optimal';
  }

  /** What the root shows of the ranks, beyond what is known. */
  private report(): void {
    if (this.stage !== 'search') return;
    for (let r = this.rank; r < RANKS; r += 1) {
      const bound = Math.min(this.rootBound(r), this.best.least[r]);
      if (bound > this.proved[r].bound)
        this.proved[r] = {
          bound,
          caps: Array.from({ length: this.rank }, (_, e) => this.best.cap(e)),
          proof: 'search',
        };
    }
  }

  private state(): SearchState {
    const { plan } = this.best;
    const bounds = this.proved.slice();
    const done = this.stage !== 'setup' && this.stage !== 'search';
    const open = plan === null ? 'unknown' : 'feasible';
    const status = this.stage === 'optimal' || this.stage === 'infeasible' ? this.stage : open;
    return { status, plan, bounds, iterations: this.iterations, done };
  }
}
