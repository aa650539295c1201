import { Literals, lowerOf, upperOf } from '../../propagation/literal.ts';
import type { Network } from '../../propagation/network.ts';
import { DECISION } from '../../propagation/trail.ts';
import { Analysis } from './analysis.ts';
import { Branching } from './branching.ts';
import { buildNetwork, type Layout, type Root } from './layout.ts';
import { luby } from './luby.ts';
import type { PureModel } from './pure.ts';

/** Conflicts before the search turns from start times to activity; also the unit of restarts. */
const RESTART = 100;
const CLAUSES_KEPT = 3000;
const CLAUSES_GROWTH = 200;

/** What one iteration came to: a dead end, a better plan, or the end of the search. */
export type Event = 'conflict' | 'plan' | 'exhausted';

/** Sees every learned clause (literals of which one must hold) with the variables' layout; for tests. */
export type ClauseObserver = (clause: Literals, layout: Layout) => void;

/**
 * Lazy clause generation over starts, the makespan and pair Booleans: propagate, move, learn.
 * A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, "Solving RCPSP/max by lazy clause
 * generation", Journal of Scheduling 16 (2013) 273-289.
 */
export class LearningSearch {
  private readonly layout: Layout;
  private readonly network: Network;
  private readonly branching: Branching;
  private readonly analysis: Analysis;
  private readonly observer: ClauseObserver | null;
  private readonly scratch = new Literals();
  private conflicts = 0;
  private restarts = 0;
  private restartAt = RESTART;
  private clauseLimit = CLAUSES_KEPT;
  /** Least makespan of any plan within the target, as proved at the root so far. */
  bound = 0;
  /** Starts of the plan, after `plan`. */
  readonly starts: Int32Array;

  constructor(model: PureModel, root: Root, observer: ClauseObserver | null) {
    const { layout, network } = buildNetwork(model, root);
    this.layout = layout;
    this.network = network;
    this.branching = new Branching(network, layout);
    this.analysis = new Analysis(network, this.branching);
    this.observer = observer;
    this.starts = new Int32Array(layout.tasks);
    this.follow(Int32Array.from(this.starts, (_, i) => network.trail.bound[lowerOf(i)]));
  }

  /** Values to try first. */
  follow(starts: Int32Array): void {
    this.branching.follow(starts);
  }

  /** Runs to the next conflict or plan. */
  next(): Event {
    const { network } = this;
    for (;;) {
      if (!network.propagate()) return this.learn() ? 'conflict' : 'exhausted';
      if (network.trail.level === 0) this.bound = network.trail.bound[lowerOf(this.layout.end)];
      if (this.conflicts >= this.restartAt) this.restart();
      else if (!this.move()) return 'plan';
    }
  }

  /** One decision; false if all starts are fixed, which are then in `starts`. */
  private move(): boolean {
    const { branching } = this;
    const moved = this.restarts === 0 ? branching.byStart() : branching.byActivity();
    if (!moved) {
      const { bound } = this.network.trail;
      for (let i = 0; i < this.starts.length; i++) this.starts[i] = bound[lowerOf(i)];
    }
    return moved;
  }

  private learn(): boolean {
    const { network, analysis } = this;
    this.conflicts++;
    if (!analysis.learn(network.conflict, this.conflicts)) return false;
    this.branching.decay();
    const { clause } = analysis;
    this.observer?.(clause, this.layout);
    const b = clause.bounds[0];
    const v = clause.values[0];
    const reason = clause.size === 1 ? DECISION : network.clauses.add(clause, this.conflicts);
    return network.trail.raise(b, v, reason, 0);
  }

  private restart(): void {
    this.restarts++;
    this.restartAt = this.conflicts + RESTART * luby(this.restarts);
    this.toRoot();
  }

  /** Rolls everything back, and thins the clauses if there are too many. */
  private toRoot(): void {
    this.analysis.rollBackTo(0);
    const { clauses } = this.network;
    if (clauses.count <= this.clauseLimit) return;
    clauses.keepRecent(this.clauseLimit >> 1, this.scratch);
    this.clauseLimit += CLAUSES_GROWTH;
  }

  /** From now on only plans with a makespan of at most `target`. False if there are none. */
  tighten(target: number): boolean {
    this.toRoot();
    const b = upperOf(this.layout.end);
    return (
      -target <= this.network.trail.bound[b] || this.network.trail.raise(b, -target, DECISION, 0)
    );
  }
}
