import { Literals, lowerOf, upperOf } from '../../propagation/literal.ts';
import type { Network } from '../../propagation/network.ts';
import { DECISION } from '../../propagation/trail.ts';
import { Analysis } from './analysis.ts';
import type { Branching } from './branching.ts';
import { luby } from './luby.ts';

/** Conflicts before the first restart; also the unit of the later ones. */
const RESTART = 100;
const CLAUSES_KEPT = 3000;
const CLAUSES_GROWTH = 200;
const MEGABYTE = 1 << 20;

/**
 * What a step came to: a dead end that was learned from; a solution, now in `values`; the
 * assumptions refuted, by those in `core`; or no solution whatever is assumed.
 */
export type Event = 'conflict' | 'solution' | 'refuted' | 'exhausted';

/** Sees every learned clause: one of its literals holds in every solution within the target. */
export type ClauseObserver = (clause: Literals) => void;

export interface LearningOptions {
  /** The variable to be made least; null: any solution will do. */
  readonly objective: number | null;
  /** Bytes that learned clauses may take before they are thinned; 64 MB if not given. */
  readonly clauseBytes?: number;
  readonly observer?: ClauseObserver;
}

/**
 * Lazy clause generation over a network: propagate, move, learn; with restarts, thinning of the
 * clauses by counts, a target for the objective, and assumptions.
 *
 * A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, "Solving RCPSP/max by lazy clause
 * generation", Journal of Scheduling 16 (2013) 273-289; assumptions as first decisions and the
 * reasons of their failure after N. Een, N. Sorensson, "Temporal induction by incremental SAT
 * solving", ENTCS 89 (2003). Deterministic: everything is counted, nothing timed.
 */
export class LearningSearch {
  readonly network: Network;
  private readonly branching: Branching;
  private readonly analysis: Analysis;
  private readonly options: LearningOptions;
  private readonly clauseBytes: number;
  private readonly scratch = new Literals();
  private readonly assumptions = new Literals();
  private readonly target = new Literals();
  private restarts = 0;
  private restartAt = RESTART;
  private clauseLimit = CLAUSES_KEPT;
  private isExhausted = false;
  /** What a decision counts for: a look at some of the variables. */
  private readonly moveWork: number;
  /** Conflicts met so far. */
  conflicts = 0;
  /** The objective's root bound: no solution within the target has less. Without an objective 0. */
  bound = 0;
  /** A value for every variable, after `solution`: its lower bound. */
  readonly values: Int32Array;
  /** After `refuted`: literals no stronger than assumptions, which cannot all hold; see `coreOf`. */
  readonly core = new Literals();
  /** For each literal of `core` the index of the assumption that it comes from. */
  readonly coreOf: number[] = [];

  constructor(network: Network, branching: Branching, options: LearningOptions) {
    this.network = network;
    this.branching = branching;
    this.options = options;
    this.clauseBytes = network.clauses.bytes + (options.clauseBytes ?? 64 * MEGABYTE);
    this.analysis = new Analysis(network, branching);
    this.values = new Int32Array(network.trail.bound.length >> 1);
    this.moveWork = network.trail.bound.length >> 6;
  }

  /** Runs to the next conflict, solution or end. */
  next(): Event {
    for (;;) {
      const event = this.advance(Infinity);
      if (event !== 'open') return event;
    }
  }

  /** The same, left open once so much work has been done, as the network counts it. */
  advance(work: number): Event | 'open' {
    const { network, options } = this;
    const { trail } = network;
    const until = network.work + work;
    while (!this.isExhausted) {
      const state = network.run(until - network.work);
      if (state === 'open') return 'open';
      if (state === 'conflict') {
        if (this.learn()) return 'conflict';
        this.isExhausted = true;
        break;
      }
      if (trail.level === 0 && options.objective !== null)
        this.bound = trail.bound[lowerOf(options.objective)];
      if (this.conflicts >= this.restartAt || this.isFull()) this.restart();
      else if (trail.level < this.assumptions.size) {
        if (!this.assumeNext()) return 'refuted';
      } else if (this.branching.move(this.restarts)) network.work += this.moveWork;
      else {
        for (let x = 0; x < this.values.length; x++) this.values[x] = trail.bound[lowerOf(x)];
        return 'solution';
      }
    }
    return 'exhausted';
  }

  /** Some more of what follows at the root; true when that is all, or nothing can hold. */
  prepare(work: number): boolean {
    this.toRoot();
    if (this.isExhausted) return true;
    const state = this.network.run(work);
    if (state === 'conflict') this.isExhausted = true;
    return state !== 'open';
  }

  /** Runs until something other than a conflict happens, or so many of those have. */
  run(conflicts: number): Event {
    for (let k = 0; k < conflicts; k++) {
      const event = this.next();
      if (event !== 'conflict') return event;
    }
    return 'conflict';
  }

  /** From now on everything happens under these literals, instead of those assumed before. */
  assume(literals: Literals): void {
    this.toRoot();
    this.assumptions.copy(literals);
  }

  /** From now on only solutions whose objective is at most `target`. False if there are none. */
  tighten(target: number): boolean {
    const { objective } = this.options;
    if (objective === null) throw new Error('there is no objective');
    // Not in `scratch`, which the way to the root may need for thinning.
    this.target.clear();
    this.target.add(upperOf(objective), -target);
    return this.require(this.target);
  }

  /** From now on only solutions in which one of these literals holds. False if there are none. */
  require(clause: Literals): boolean {
    this.toRoot();
    // What the last conflict taught may not have been propagated yet.
    if (this.isExhausted || !this.network.propagate() || !this.network.require(clause))
      this.isExhausted = true;
    return !this.isExhausted;
  }

  /** Begins as at first, with dives until the first restart; what has been learned stays. */
  diveAgain(): void {
    this.toRoot();
    this.restarts = 0;
    this.restartAt = this.conflicts + RESTART;
  }

  private restart(): void {
    this.restarts++;
    this.restartAt = this.conflicts + RESTART * luby(this.restarts);
    this.branching.leave();
    this.toRoot();
  }

  /** Rises of bounds so far. */
  get propagations(): number {
    return this.network.trail.rises;
  }

  /** Makes the next assumption true on a level of its own. False if it is false already. */
  private assumeNext(): boolean {
    const { network, assumptions } = this;
    const { trail } = network;
    const b = assumptions.bounds[trail.level];
    const v = assumptions.values[trail.level];
    if (trail.bound[b] >= v) trail.open();
    else if (trail.bound[b ^ 1] < 1 - v) network.decide(b, v);
    else {
      this.core.clear();
      this.coreOf.length = 0;
      this.core.add(b, v);
      this.coreOf.push(trail.level);
      this.analysis.decisionsBehind(b ^ 1, 1 - v, this.core, this.coreOf);
      this.keepCore();
      return false;
    }
    return true;
  }

  /** At the root: from now on the literals of the core cannot all hold. */
  private keepCore(): void {
    const { core, scratch, network } = this;
    scratch.clear();
    for (let k = 0; k < core.size; k++) scratch.add(core.bounds[k] ^ 1, 1 - core.values[k]);
    this.options.observer?.(scratch);
    if (!network.propagate()) {
      this.isExhausted = true;
      return;
    }
    const clause = network.clauses.simplified(scratch);
    if (clause === null) return;
    if (clause.size > 1) network.clauses.add(clause, this.conflicts, clause.size);
    else if (!network.require(clause)) this.isExhausted = true;
  }

  private learn(): boolean {
    const { network, analysis } = this;
    this.conflicts++;
    if (!analysis.learn(network.conflict, this.conflicts)) return false;
    this.branching.decay();
    const { clause } = analysis;
    this.options.observer?.(clause);
    const b = clause.bounds[0];
    const v = clause.values[0];
    const reason =
      clause.size === 1 ? DECISION : network.clauses.add(clause, this.conflicts, analysis.glue);
    return network.trail.raise(b, v, reason, 0);
  }

  private isFull(): boolean {
    const { clauses } = this.network;
    return clauses.bytes > this.clauseBytes && clauses.count > 0;
  }

  /** Rolls everything back, and thins the clauses if there are too many. */
  toRoot(): void {
    const { clauses } = this.network;
    const full = this.isFull();
    this.analysis.rollBackTo(0);
    if (this.isExhausted || (clauses.count <= this.clauseLimit && !full)) return;
    // What the last conflict taught may be pending: no clause is thinned by facts it has not seen.
    if (!this.network.propagate()) {
      this.isExhausted = true;
      return;
    }
    const { count } = clauses;
    clauses.keepRecent(Math.min(this.clauseLimit, count) >> 1, this.scratch);
    // Of equal standing none goes before the others, and to keep them all would be no end of it.
    if (full && clauses.count === count) clauses.keepRecent(0, this.scratch);
    if (!full) this.clauseLimit += CLAUSES_GROWTH;
  }
}
