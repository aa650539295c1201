import { doubled } from './literal.ts';

/** Why a bound rose: the low two bits name the kind, the rest is the propagator's datum. */
export const DECISION = 0;
export const ARC = 1;
export const CLAUSE = 2;
export const PROPAGATOR = 3;

/**
 * The bounds and the history of their rises. An entry keeps the bound's old value, the
 * previous entry of the same bound, and the reason from which an explanation can be rebuilt
 * once everything after it has been rolled back.
 *
 * Invariant: with `level === 0` and `forget()` called, bounds are root facts without entries;
 * so a literal is a root fact exactly if no entry made it true.
 */
export class Trail {
  readonly bound: Int32Array;
  /** Newest entry of each bound, -1 if it still has its root value. */
  readonly latest: Int32Array;
  size = 0;
  level = 0;
  /** How many rises there have been. */
  rises = 0;
  /** The first entry of each level above the root, by level. */
  levelStart = new Int32Array(256);
  entryBound = new Int32Array(1024);
  entryOld = new Int32Array(1024);
  entryPrevious = new Int32Array(1024);
  entryReason = new Int32Array(1024);
  entryDetail = new Int32Array(1024);

  /** The rise that could not be made because its literal is false, after `raise` gave false. */
  failedBound = -1;
  failedReason = 0;
  failedDetail = 0;

  constructor(root: Int32Array) {
    this.bound = root.slice();
    this.latest = new Int32Array(root.length).fill(-1);
  }

  /**
   * Makes the literal (b, v) true; `v > bound[b]` on entry. False if it contradicts the
   * opposite bound: the trail is then unchanged and the failed rise is noted.
   */
  raise(b: number, v: number, reason: number, detail: number): boolean {
    const bound = this.bound;
    if (v + bound[b ^ 1] > 0) {
      this.failedBound = b;
      this.failedReason = reason;
      this.failedDetail = detail;
      return false;
    }
    this.rises++;
    const p = this.size++;
    if (p === this.entryBound.length) this.grow();
    this.entryBound[p] = b;
    this.entryOld[p] = bound[b];
    this.entryPrevious[p] = this.latest[b];
    this.entryReason[p] = reason;
    this.entryDetail[p] = detail;
    this.latest[b] = p;
    bound[b] = v;
    return true;
  }

  /** Opens a level; the next `raise` is its decision. */
  open(): void {
    if (++this.level === this.levelStart.length) this.levelStart = doubled(this.levelStart);
    this.levelStart[this.level] = this.size;
  }

  /** Takes the newest entry back and gives the bound that fell. */
  pop(): number {
    const p = --this.size;
    const b = this.entryBound[p];
    this.bound[b] = this.entryOld[p];
    this.latest[b] = this.entryPrevious[p];
    return b;
  }

  /** At level 0: the present bounds become root facts. */
  forget(): void {
    for (let p = 0; p < this.size; p++) this.latest[this.entryBound[p]] = -1;
    this.size = 0;
  }

  /** The entry that made the true literal (b, v) true, or -1 if it is a root fact. */
  entryOf(b: number, v: number): number {
    let p = this.latest[b];
    while (p >= 0 && this.entryOld[p] >= v) p = this.entryPrevious[p];
    return p;
  }

  /** The level to which entry `p` belongs; cost is the number of levels above it. */
  levelOf(p: number): number {
    let level = this.level;
    while (level > 0 && this.levelStart[level] > p) level--;
    return level;
  }

  private grow(): void {
    this.entryBound = doubled(this.entryBound);
    this.entryOld = doubled(this.entryOld);
    this.entryPrevious = doubled(this.entryPrevious);
    this.entryReason = doubled(this.entryReason);
    this.entryDetail = doubled(this.entryDetail);
  }
}
