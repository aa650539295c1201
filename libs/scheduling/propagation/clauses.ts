import { Literals, doubled } from './literal.ts';
import { CLAUSE, type Trail } from './trail.ts';

/** Clause in the arena: size, stamp, next link of each watch, glue, then (bound, value, mark) a literal. */
const HEADER = 5;
const WIDTH = 3;
const NONE = -1;
/** Below every value of a bound. */
const LOWEST = -0x7fffffff;
/** The stamp of a clause that is kept for good. */
const FOREVER = 0x7fffffff;
/**
 * A clause counts as so much older for each level that it spanned when it was learned: those that
 * span few are of use for longer (G. Audemard, L. Simon, "Predicting learnt clauses quality in
 * modern SAT solvers", IJCAI 2009). The number was chosen on seven long PSPLIB j30 proofs, where it
 * takes 9 % off the conflicts of recency alone.
 */
const GLUE_AGE = 1500;

/** When the clause was last of use, less what its glue takes off. */
const standing = (arena: Int32Array, clause: number): number =>
  arena[clause + 1] === FOREVER ? FOREVER : arena[clause + 1] - GLUE_AGE * arena[clause + 4];

/**
 * Clauses over bound literals, two watched literals each. A literal's falsehood is
 * a *mark* (bound, value) on the opposite bound; the marks of a bound form a sorted list with
 * a cursor at its present value, so a rise visits only the clauses whose watch became false,
 * and no array over values exists.
 *
 * Watches: M. Moskewicz et al., "Chaff: engineering an efficient SAT solver", DAC 2001.
 * A rise costs O(marks passed + clauses watched there). Marks and clauses that are no longer
 * needed go when `keepRecent` rebuilds the store.
 */
export class Clauses {
  private readonly trail: Trail;
  private arena = new Int32Array(1 << 16);
  private used = 0;
  /** Clauses that may be dropped, and those kept for good. */
  count = 0;
  private permanent = 0;
  private readonly simple = new Literals();

  private markValue = new Int32Array(1 << 12);
  private markNext = new Int32Array(1 << 12);
  private markPrevious = new Int32Array(1 << 12);
  /** First watch at each mark: clause offset * 2 + which watch. */
  private markWatch = new Int32Array(1 << 12);
  private marks = 0;
  /** Per bound the last mark at or below its value; mark `b` is the sentinel of bound `b`. */
  private readonly cursor: Int32Array;

  constructor(trail: Trail) {
    this.trail = trail;
    this.cursor = new Int32Array(trail.bound.length);
    this.clearMarks();
  }

  private clearMarks(): void {
    const bounds = this.trail.bound.length;
    while (this.markValue.length < 2 * bounds) this.growMarks();
    for (let b = 0; b < bounds; b++) {
      this.markValue[b] = LOWEST;
      this.markNext[b] = NONE;
      this.markPrevious[b] = NONE;
      this.markWatch[b] = NONE;
      this.cursor[b] = b;
    }
    this.marks = bounds;
  }

  /** After bound `b` fell. */
  rewind(b: number): void {
    const value = this.trail.bound[b];
    let mark = this.cursor[b];
    while (this.markValue[mark] > value) mark = this.markPrevious[mark];
    this.cursor[b] = mark;
  }

  /** After a rise of bound `b`. False on conflict. */
  propagate(b: number): boolean {
    const limit = this.trail.bound[b];
    let mark = this.markNext[this.cursor[b]];
    while (mark !== NONE && this.markValue[mark] <= limit) {
      if (this.markWatch[mark] !== NONE && !this.visit(mark)) return false;
      this.cursor[b] = mark;
      mark = this.markNext[mark];
    }
    return true;
  }

  /** Moves, keeps or fires every watch at a mark that has been passed. */
  private visit(mark: number): boolean {
    const { arena, trail, markWatch } = this;
    const bound = trail.bound;
    let watch = markWatch[mark];
    let kept = NONE;
    let consistent = true;
    while (watch !== NONE) {
      const clause = watch >> 1;
      const side = watch & 1;
      const next = arena[clause + 2 + side];
      const other = clause + HEADER + (side === 0 ? WIDTH : 0);
      let keep = !consistent || bound[arena[other]] >= arena[other + 1];
      if (!keep) {
        const end = clause + HEADER + WIDTH * arena[clause];
        let q = clause + HEADER + 2 * WIDTH;
        while (q < end && bound[arena[q] ^ 1] >= 1 - arena[q + 1]) q += WIDTH;
        if (q < end) {
          this.exchange(clause + HEADER + side * WIDTH, q);
          const to = arena[clause + HEADER + side * WIDTH + 2];
          arena[clause + 2 + side] = markWatch[to];
          markWatch[to] = watch;
        } else {
          keep = true;
          consistent = trail.raise(arena[other], arena[other + 1], CLAUSE | (clause << 2), 0);
        }
      }
      if (keep) {
        arena[clause + 2 + side] = kept;
        kept = watch;
      }
      watch = next;
    }
    markWatch[mark] = kept;
    return consistent;
  }

  private exchange(p: number, q: number): void {
    const arena = this.arena;
    for (let k = 0; k < WIDTH; k++) {
      const held = arena[p + k];
      arena[p + k] = arena[q + k];
      arena[q + k] = held;
    }
  }

  /** Why the clause forced its literal on bound `b`: all its other literals are false. */
  explain(clause: number, b: number, out: Literals): void {
    const arena = this.arena;
    const end = clause + HEADER + WIDTH * arena[clause];
    for (let q = clause + HEADER; q < end; q += WIDTH) {
      if (arena[q] !== b) out.add(arena[q] ^ 1, 1 - arena[q + 1]);
    }
  }

  /** Marks the clause as used now; recency decides what `keepRecent` keeps. */
  touch(clause: number, stamp: number): void {
    if (this.arena[clause + 1] !== FOREVER) this.arena[clause + 1] = stamp;
  }

  /** Bytes that hold clauses and marks; the arrays behind them may be twice as long. */
  get bytes(): number {
    return 4 * this.used + 16 * this.marks;
  }

  /**
   * At level 0: the clause without literals that are false for good, one literal a bound; null if
   * it is true for good or always. Good until the next call.
   */
  simplified(clause: Literals): Literals | null {
    const { simple, trail } = this;
    const { bound } = trail;
    simple.clear();
    for (let k = 0; k < clause.size; k++) {
      const b = clause.bounds[k];
      const v = clause.values[k];
      if (bound[b] >= v) return null;
      if (bound[b ^ 1] >= 1 - v) continue;
      const twin = simple.find(b);
      if (twin < 0) simple.add(b, v);
      else if (v < simple.values[twin]) simple.values[twin] = v;
    }
    for (let k = 0; k < simple.size; k++) {
      const opposite = simple.find(simple.bounds[k] ^ 1);
      if (opposite >= 0 && simple.values[k] + simple.values[opposite] <= 1) return null;
    }
    return simple;
  }

  /** As `add`, for a clause that `keepRecent` never drops. */
  addForGood(literals: Literals): void {
    this.add(literals, FOREVER, 0);
    this.count--;
    this.permanent++;
  }

  /**
   * Stores a clause of two or more literals of different bounds and watches the first two:
   * they are not false, or the first is about to become true and the second fell last.
   * `glue`: the number of levels that it spans. Gives its reason code.
   */
  add(literals: Literals, stamp: number, glue: number): number {
    const size = literals.size;
    while (this.used + HEADER + WIDTH * size > this.arena.length) this.arena = doubled(this.arena);
    const clause = this.used;
    this.used += HEADER + WIDTH * size;
    const arena = this.arena;
    arena[clause] = size;
    arena[clause + 1] = stamp;
    arena[clause + 4] = glue;
    for (let k = 0; k < size; k++) {
      const b = literals.bounds[k];
      const v = literals.values[k];
      const q = clause + HEADER + WIDTH * k;
      arena[q] = b;
      arena[q + 1] = v;
      arena[q + 2] = this.mark(b ^ 1, 1 - v);
    }
    for (let side = 0; side < 2; side++) {
      const to = arena[clause + HEADER + WIDTH * side + 2];
      arena[clause + 2 + side] = this.markWatch[to];
      this.markWatch[to] = clause * 2 + side;
    }
    this.count++;
    return CLAUSE | (clause << 2);
  }

  /** The mark (b, v), made if need be. All rises of `b` must have been propagated. */
  private mark(b: number, v: number): number {
    let p = this.cursor[b];
    while (this.markValue[p] > v) p = this.markPrevious[p];
    for (let n = this.markNext[p]; n !== NONE && this.markValue[n] <= v; n = this.markNext[n])
      p = n;
    if (this.markValue[p] === v) return p;
    if (this.marks === this.markValue.length) this.growMarks();
    const mark = this.marks++;
    const next = this.markNext[p];
    this.markValue[mark] = v;
    this.markWatch[mark] = NONE;
    this.markPrevious[mark] = p;
    this.markNext[mark] = next;
    this.markNext[p] = mark;
    if (next !== NONE) this.markPrevious[next] = mark;
    if (p === this.cursor[b] && v <= this.trail.bound[b]) this.cursor[b] = mark;
    return mark;
  }

  private growMarks(): void {
    this.markValue = doubled(this.markValue);
    this.markNext = doubled(this.markNext);
    this.markPrevious = doubled(this.markPrevious);
    this.markWatch = doubled(this.markWatch);
  }

  /**
   * At level 0 with all propagated: keeps the `keep` clauses of best standing, less those
   * that are true for good, without their literals that are false for good.
   */
  keepRecent(keep: number, scratch: Literals): void {
    const old = this.arena;
    const stamps = new Int32Array(this.count + this.permanent);
    this.eachClause((clause, k) => (stamps[k] = standing(old, clause)));
    stamps.sort();
    // Clauses kept for good come last in this order.
    const oldest = this.count > keep ? (keep > 0 ? stamps[this.count - keep] : FOREVER) : LOWEST;
    const end = this.used;
    this.arena = new Int32Array(old.length);
    this.used = 0;
    this.count = 0;
    this.permanent = 0;
    this.clearMarks();
    const bound = this.trail.bound;
    for (let clause = 0; clause < end; clause += HEADER + WIDTH * old[clause]) {
      if (standing(old, clause) < oldest) continue;
      scratch.clear();
      let satisfied = false;
      for (let k = 0; k < old[clause] && !satisfied; k++) {
        const q = clause + HEADER + WIDTH * k;
        satisfied = bound[old[q]] >= old[q + 1];
        if (bound[old[q] ^ 1] < 1 - old[q + 1]) scratch.add(old[q], old[q + 1]);
      }
      if (satisfied) continue;
      if (old[clause + 1] === FOREVER) this.addForGood(scratch);
      else this.add(scratch, old[clause + 1], old[clause + 4]);
    }
  }

  private eachClause(visit: (clause: number, k: number) => void): void {
    let k = 0;
    for (let clause = 0; clause < this.used; clause += HEADER + WIDTH * this.arena[clause])
      visit(clause, k++);
  }
}
