import { Literals, doubled } from '../../propagation/literal.ts';
import type { Network } from '../../propagation/network.ts';
import { ARC, CLAUSE, DECISION } from '../../propagation/trail.ts';
import type { Branching } from './branching.ts';

const UNMARKED = -0x80000000;

/**
 * Conflict analysis: the first unique implication point over trail entries (J. P. Marques-Silva,
 * K. A. Sakallah, "GRASP: a search algorithm for propositional satisfiability", IEEE Trans.
 * Computers 48 (1999) 506-521), while the trail is rolled back, so that every explanation is
 * built in the exact state that it speaks of.
 *
 * What is marked is an entry, with the largest value asked of it: two literals of one bound
 * that became true at different entries are two obligations.
 */
export class Analysis {
  /** The clause of the last `learn`: the asserting literal first, then one of the level to return to. */
  readonly clause = new Literals();
  /** The number of levels that it spans. */
  glue = 0;
  private readonly network: Network;
  private readonly branching: Branching;
  private readonly reason = new Literals();
  /** By trail entry: the value asked of it. */
  private asked: Int32Array<ArrayBuffer> = new Int32Array(1024).fill(UNMARKED);
  /** Marked entries below the level of the conflict. */
  private readonly below: number[] = [];
  /** By bound: the newest kept entry, while dominated literals are dropped. */
  private readonly newest: Int32Array;
  private levelFrom = 0;
  private open = 0;

  constructor(network: Network, branching: Branching) {
    this.network = network;
    this.branching = branching;
    this.newest = new Int32Array(network.trail.bound.length).fill(-1);
  }

  /**
   * Learns from the literals of a conflict, all true, and rolls back to the level where the
   * learned clause asserts its first literal. False if the conflict needs no decision.
   */
  learn(conflict: Literals, stamp: number): boolean {
    const { network } = this;
    const { trail } = network;
    if (trail.level === 0) return false;
    let newest = -1;
    for (let k = 0; k < conflict.size; k++) {
      newest = Math.max(newest, trail.entryOf(conflict.bounds[k], conflict.values[k]));
    }
    if (newest < 0) return false;
    this.makeRoom();
    // All of a conflict may lie below the present level: start where its newest literal is.
    const level = trail.levelOf(newest);
    this.levelFrom = trail.levelStart[level];
    this.open = 0;
    this.below.length = 0;
    this.ask(conflict);
    const uip = this.resolveToUip(stamp);
    const uipBound = trail.entryBound[uip];
    const uipValue = this.asked[uip];
    this.asked[uip] = UNMARKED;
    this.minimise();
    this.gather(uipBound, uipValue);
    this.rollBack();
    return true;
  }

  private makeRoom(): void {
    while (this.asked.length < this.network.trail.entryBound.length) {
      const half = this.asked.length;
      this.asked = doubled(this.asked).fill(UNMARKED, half);
    }
  }

  /** Marks the entries that made these literals true; root facts need none. */
  private ask(literals: Literals): void {
    const { trail } = this.network;
    const asked = this.asked;
    for (let k = 0; k < literals.size; k++) {
      const v = literals.values[k];
      const p = trail.entryOf(literals.bounds[k], v);
      if (p < 0) continue;
      if (asked[p] === UNMARKED) {
        if (p >= this.levelFrom) this.open++;
        else this.below.push(p);
        this.branching.bump(literals.bounds[k], v);
      }
      if (v > asked[p]) asked[p] = v;
    }
  }

  /** Replaces marked entries of the conflict's level by their reasons until one is left; pops it too. */
  private resolveToUip(stamp: number): number {
    const { network, asked, reason } = this;
    const { trail } = network;
    for (;;) {
      network.pop();
      const p = trail.size;
      const v = asked[p];
      if (v === UNMARKED) continue;
      if (--this.open === 0) return p;
      asked[p] = UNMARKED;
      if ((trail.entryReason[p] & 3) === CLAUSE)
        network.clauses.touch(trail.entryReason[p] >> 2, stamp);
      reason.clear();
      network.explain(p, v, reason);
      this.ask(reason);
    }
  }

  /**
   * Drops an entry whose reason follows from other marked entries *older than itself*: the
   * order of the trail keeps this from going round in a circle. Only reasons that can be
   * told without the state at that time are tried.
   */
  private minimise(): void {
    const { network, reason, asked, below } = this;
    const { trail } = network;
    let kept = 0;
    // Newest first, and the marks of dropped ones stay until the end: they follow from older marks.
    below.sort((a, b) => b - a);
    const dropped: number[] = [];
    for (const p of below) {
      const code = trail.entryReason[p];
      const kind = code & 3;
      const b = trail.entryBound[p];
      let implied = kind === CLAUSE || (kind === ARC && network.arcs.isStateless(code >> 2, b));
      if (implied) {
        reason.clear();
        network.explain(p, asked[p], reason);
        for (let k = 0; k < reason.size && implied; k++) {
          const q = trail.entryOf(reason.bounds[k], reason.values[k]);
          implied = q < 0 || (q < p && asked[q] >= reason.values[k]);
        }
      }
      if (implied) dropped.push(p);
      else below[kept++] = p;
    }
    below.length = kept;
    for (const p of dropped) asked[p] = UNMARKED;
  }

  /** Writes the negated literals, strongest of each bound only, with the newest below the level second. */
  private gather(uipBound: number, uipValue: number): void {
    const { clause, newest, asked, below } = this;
    const { trail } = this.network;
    clause.clear();
    clause.add(uipBound ^ 1, 1 - uipValue);
    newest[uipBound] = trail.entryBound.length;
    let level = trail.level;
    let levelFrom = trail.size;
    this.glue = 1;
    for (const p of below) {
      const b = trail.entryBound[p];
      // Newest first, so the first of a bound is its strongest.
      if (newest[b] < 0) {
        newest[b] = p;
        if (p < levelFrom) {
          this.glue++;
          while (trail.levelStart[level] > p) level--;
          levelFrom = trail.levelStart[level];
        }
        clause.add(b ^ 1, 1 - asked[p]);
      }
    }
    newest[uipBound] = -1;
    for (const p of below) {
      newest[trail.entryBound[p]] = -1;
      asked[p] = UNMARKED;
    }
  }

  /** To the level of the second literal of the clause, the root if there is none. */
  private rollBack(): void {
    const { network, clause } = this;
    const { trail } = network;
    let level = 0;
    if (clause.size > 1) {
      level = trail.levelOf(trail.entryOf(clause.bounds[1] ^ 1, 1 - clause.values[1]));
    }
    this.rollBackTo(level);
  }

  /**
   * Appends to `out` the decisions from which the true literal (b, v) follows, as weakly as they
   * are asked for, and to `levels` the level of each less one. Rolls back to the root.
   */
  decisionsBehind(b: number, v: number, out: Literals, levels: number[]): void {
    const { network, reason, asked, below } = this;
    const { trail } = network;
    this.makeRoom();
    this.levelFrom = trail.size;
    below.length = 0;
    reason.clear();
    reason.add(b, v);
    this.ask(reason);
    let level = trail.level;
    while (trail.size > 0) {
      network.pop();
      const p = trail.size;
      const value = asked[p];
      if (value === UNMARKED) continue;
      asked[p] = UNMARKED;
      if (trail.entryReason[p] === DECISION) {
        while (trail.levelStart[level] > p) level--;
        out.add(trail.entryBound[p], value);
        levels.push(level - 1);
        continue;
      }
      reason.clear();
      network.explain(p, value, reason);
      this.ask(reason);
    }
    below.length = 0;
    this.rollBackTo(0);
  }

  /** Undoes every level above `level`. */
  rollBackTo(level: number): void {
    const { trail } = this.network;
    // What is still to be propagated on this level stays so.
    if (level === trail.level) return;
    while (trail.size > trail.levelStart[level + 1]) this.network.pop();
    this.network.settle(level);
    this.branching.reopen(level);
  }
}
