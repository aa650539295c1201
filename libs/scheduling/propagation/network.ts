import { Arcs, type Arc } from './arcs.ts';
import { Clauses } from './clauses.ts';
import { Literals } from './literal.ts';
import type { Propagator } from './propagator.ts';
import { ARC, CLAUSE, DECISION, PROPAGATOR, Trail } from './trail.ts';

/** Makes a propagator over the trail; its rises carry the reason code given. */
export type MakePropagator = (trail: Trail, reason: number) => Propagator;

/** What a network is made of. `root` has two bounds a variable (see literal.ts). */
export interface NetworkInput {
  readonly root: Int32Array;
  readonly arcs: readonly Arc[];
  /** Each needs one of its literals; kept for good. */
  readonly clauses?: readonly Literals[];
  readonly propagators: readonly MakePropagator[];
}

const COSTS = 4;

/**
 * All propagators over one trail, run to a fixpoint: clauses and arcs at each rise, the others
 * when nothing cheaper is left. After `propagate` gave false, `conflict` holds true literals
 * that cannot hold together.
 */
export class Network {
  readonly trail: Trail;
  readonly clauses: Clauses;
  readonly arcs: Arcs;
  readonly conflict = new Literals();
  private readonly propagators: readonly Propagator[];
  /** Watches by bound: whom to notify of what. */
  private readonly watchFirst: Int32Array;
  private readonly watcher: Int32Array;
  private readonly datum: Int32Array;
  /** By cost, a stack of the propagators that wait to be run. */
  private readonly waiting: readonly Int32Array[];
  private readonly waitingCount = new Int32Array(COSTS);
  private waitingAll = 0;
  /** Propagators that have been run since bounds last fell. */
  private readonly ran: Int32Array;
  private readonly hasRun: Uint8Array;
  private ranCount = 0;
  /** The next trail entry to propagate. */
  private head = 0;
  private consistentRoot = true;

  constructor(input: NetworkInput) {
    const { root } = input;
    this.trail = new Trail(root);
    this.clauses = new Clauses(this.trail);
    this.arcs = new Arcs(this.trail, input.arcs);
    const propagators = input.propagators.map((make, k) => make(this.trail, PROPAGATOR | (k << 2)));
    this.propagators = propagators;
    const watches = propagators.flatMap((p, k) => p.watches.map((watch) => ({ ...watch, k })));
    watches.sort((a, b) => a.bound - b.bound);
    this.watcher = Int32Array.from(watches, (w) => w.k);
    this.datum = Int32Array.from(watches, (w) => w.datum);
    this.watchFirst = new Int32Array(root.length + 1);
    for (const { bound } of watches) this.watchFirst[bound + 1]++;
    for (let b = 0; b < root.length; b++) this.watchFirst[b + 1] += this.watchFirst[b];
    this.waiting = Array.from({ length: COSTS }, () => new Int32Array(propagators.length));
    this.ran = new Int32Array(propagators.length);
    this.hasRun = new Uint8Array(propagators.length);
    for (const clause of input.clauses ?? []) {
      if (!this.require(clause)) this.consistentRoot = false;
    }
    for (let b = 0; b < root.length; b++) this.notice(b);
    for (let b = 0; b < root.length; b++) {
      if (this.consistentRoot && !this.arcs.propagate(b)) this.consistentRoot = false;
    }
  }

  /**
   * Adds a clause for good, at level 0. False if the root facts refute all its literals;
   * `propagate` still has to be run.
   */
  require(clause: Literals): boolean {
    const { trail, clauses } = this;
    const literals = clauses.simplified(clause);
    if (literals === null) return true;
    if (literals.size > 1) {
      clauses.addForGood(literals);
      return true;
    }
    return literals.size > 0 && trail.raise(literals.bounds[0], literals.values[0], DECISION, 0);
  }

  private notice(b: number): void {
    const { propagators, watcher, datum } = this;
    const end = this.watchFirst[b + 1];
    for (let w = this.watchFirst[b]; w < end; w++) {
      const k = watcher[w];
      const propagator = propagators[k];
      if (!propagator.notice(datum[w])) continue;
      this.waiting[propagator.cost][this.waitingCount[propagator.cost]++] = k;
      this.waitingAll++;
    }
  }

  /** Runs to the fixpoint. False on conflict. At level 0 what was derived becomes root facts. */
  propagate(): boolean {
    const { trail, clauses, arcs } = this;
    if (!this.consistentRoot) return false;
    for (;;) {
      while (this.head < trail.size) {
        const p = this.head++;
        const b = trail.entryBound[p];
        if (trail.latest[b] !== p) continue; // a later entry will do for both
        this.notice(b);
        if (!arcs.propagate(b) || !clauses.propagate(b)) return this.failRise();
      }
      if (this.waitingAll === 0) break;
      if (!this.runCheapest()) return false;
    }
    if (trail.level === 0) {
      trail.forget();
      this.head = 0;
    }
    return true;
  }

  private runCheapest(): boolean {
    let cost = 0;
    while (this.waitingCount[cost] === 0) cost++;
    this.waitingAll--;
    const k = this.waiting[cost][--this.waitingCount[cost]];
    if (this.hasRun[k] === 0) {
      this.hasRun[k] = 1;
      this.ran[this.ranCount++] = k;
    }
    const propagator = this.propagators[k];
    this.conflict.clear();
    if (propagator.propagate(this.conflict)) return true;
    propagator.drop();
    return this.conflict.size > 0 ? this.fail() : this.failRise();
  }

  /** The conflict of a rise that met its opposite bound: the weakest such rise, and that bound. */
  private failRise(): boolean {
    const { trail, conflict } = this;
    const b = trail.failedBound;
    const opposite = trail.bound[b ^ 1];
    conflict.clear();
    this.explainReason(b, 1 - opposite, trail.failedReason, trail.failedDetail, conflict);
    conflict.add(b ^ 1, opposite);
    return this.fail();
  }

  private fail(): boolean {
    for (let cost = 0; cost < COSTS; cost++) {
      const stack = this.waiting[cost];
      for (let w = 0; w < this.waitingCount[cost]; w++) this.propagators[stack[w]].drop();
      this.waitingCount[cost] = 0;
    }
    this.waitingAll = 0;
    this.head = this.trail.size;
    return false;
  }

  /** Opens a level and makes (b, v) true, which must be undecided. */
  decide(b: number, v: number): void {
    this.trail.open();
    this.trail.raise(b, v, DECISION, 0);
  }

  /** Takes the newest entry back. Call `settle` after the last. */
  pop(): void {
    this.clauses.rewind(this.trail.pop());
  }

  /** After `pop`s down to the start of a level that becomes the present one. */
  settle(level: number): void {
    this.trail.level = level;
    this.head = this.trail.size;
    for (let r = 0; r < this.ranCount; r++) {
      const k = this.ran[r];
      this.hasRun[k] = 0;
      this.propagators[k].rewind();
    }
    this.ranCount = 0;
  }

  /** Appends to `out` why entry `p`'s bound reached `v`; `p` must be just popped. */
  explain(p: number, v: number, out: Literals): void {
    const { entryBound, entryReason, entryDetail } = this.trail;
    this.explainReason(entryBound[p], v, entryReason[p], entryDetail[p], out);
  }

  private explainReason(b: number, v: number, reason: number, detail: number, out: Literals): void {
    const datum = reason >> 2;
    switch (reason & 3) {
      case ARC:
        this.arcs.explain(datum, b, v, out);
        break;
      case CLAUSE:
        this.clauses.explain(datum, b, out);
        break;
      case PROPAGATOR:
        this.propagators[datum].explain(b, v, detail, out);
        break;
      default:
        throw new Error('a decision has no reason');
    }
  }
}
