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

/** The trail of an input with its propagators, for whoever makes them one by one. */
interface Made {
  readonly trail: Trail;
  readonly propagators: readonly Propagator[];
}

const COSTS = 4;

/** The reason code of propagator k. */
export const codeOf = (k: number): number => PROPAGATOR | (k << 2);

/**
 * What a run of a propagator counts for, a unit being a look at a few bounds: those of cost 0 do as
 * much as they are told of, the dearest are quadratic in their tasks, of about four watches each.
 */
function effortOf({ cost, watches: { length } }: Propagator): number {
  if (cost === 0) return 4;
  return cost < 3 ? 4 + length : 4 + length + Math.floor((length * length) / 64);
}

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
  /** What a run of each counts for. */
  private readonly effort: Int32Array;
  /** What has been done so far, counted as in `effortOf`. */
  work = 0;
  /** The next trail entry to propagate. */
  private head = 0;
  private consistentRoot = true;

  /** `made`: a trail over the input's root and propagators over it, in place of the input's. */
  constructor(input: NetworkInput, made: Made | null = null) {
    const { root } = input;
    this.trail = made?.trail ?? new Trail(root);
    this.clauses = new Clauses(this.trail);
    this.arcs = new Arcs(this.trail, input.arcs);
    const propagators =
      made?.propagators ?? input.propagators.map((make, k) => make(this.trail, codeOf(k)));
    this.propagators = propagators;
    this.watchFirst = new Int32Array(root.length + 1);
    for (const { watches } of propagators)
      for (const { bound } of watches) this.watchFirst[bound + 1]++;
    for (let b = 0; b < root.length; b++) this.watchFirst[b + 1] += this.watchFirst[b];
    this.watcher = new Int32Array(this.watchFirst[root.length]);
    this.datum = new Int32Array(this.watchFirst[root.length]);
    const next = this.watchFirst.slice();
    for (let k = 0; k < propagators.length; k++)
      for (const { bound, datum } of propagators[k].watches) {
        const w = next[bound]++;
        this.watcher[w] = k;
        this.datum[w] = datum;
      }
    // The first run looks at all that is watched.
    this.effort = Int32Array.from(propagators, (p) => Math.max(effortOf(p), p.watches.length));
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
    return this.run(Infinity) === 'fixpoint';
  }

  /**
   * The same, left open once so much work has been done: whoever calls again goes on from there.
   * A roll-back to a lower level forgets what was left open.
   */
  run(work: number): 'fixpoint' | 'conflict' | 'open' {
    return this.close(this.work + work);
  }

  private close(until: number): 'fixpoint' | 'conflict' | 'open' {
    const { trail, clauses, arcs } = this;
    if (!this.consistentRoot) return 'conflict';
    for (;;) {
      if (this.work >= until) return 'open';
      const from = this.head;
      while (this.head < trail.size) {
        const p = this.head++;
        const b = trail.entryBound[p];
        if (trail.latest[b] !== p) continue; // a later entry will do for both
        this.notice(b);
        if (!arcs.propagate(b) || !clauses.propagate(b)) {
          this.work += this.head - from;
          this.failRise();
          return 'conflict';
        }
      }
      this.work += this.head - from;
      if (this.waitingAll === 0) break;
      if (!this.runCheapest()) return 'conflict';
    }
    if (trail.level === 0) {
      trail.forget();
      this.head = 0;
    }
    return 'fixpoint';
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
    this.work += this.effort[k];
    if (propagator.cost === 0) this.effort[k] = effortOf(propagator);
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
    this.dropWaiting();
    this.head = this.trail.size;
    return false;
  }

  private dropWaiting(): void {
    for (let cost = 0; cost < COSTS; cost++) {
      const stack = this.waiting[cost];
      for (let w = 0; w < this.waitingCount[cost]; w++) this.propagators[stack[w]].drop();
      this.waitingCount[cost] = 0;
    }
    this.waitingAll = 0;
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
    if (this.waitingAll > 0) this.dropWaiting();
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
