import type { Clock } from './clock.ts';
import type { Trail } from './trail.ts';

/**
 * A task in one direction of time. Moments are those of the direction: the earliest start is
 * `bound[head] + headPlus`, the latest finish `-(bound[tail] + tailPlus)`.
 */
export interface SideUse {
  readonly head: number;
  readonly headPlus: number;
  readonly tail: number;
  readonly tailPlus: number;
  readonly work: number;
  readonly when: { readonly b: number; readonly v: number } | null;
}

export const NOTHING = -0x3fffffff;
/** Neither certain nor possible. */
const OUT = 2;
/** Later than any moment. */
export const NEVER = 0x3fffffff;

/** The tasks of `unary` in one direction of time, as they stand by the bounds at the last look. */
export class UnaryTasks {
  readonly trail: Trail;
  readonly uses: readonly SideUse[];
  readonly clock: Clock;
  /** Earliest start and latest finish on the clock, and the work. */
  readonly early: Int32Array;
  readonly late: Int32Array;
  readonly work: Int32Array;
  /** Earliest finish and latest start, moments. */
  readonly finish: Int32Array;
  readonly latest: Int32Array;
  mostWork = 0;
  /** All tasks, by earliest start when last seen, the latest first. */
  private readonly all: Int32Array;
  /** Those that are not absent, and those of them that are certain. */
  readonly order: Int32Array;
  readonly certain: Int32Array;
  /** 1, 0 where it is only possible, or OUT. */
  readonly isCertain: Uint8Array;
  orderSize = 0;
  certainSize = 0;

  constructor(trail: Trail, uses: readonly SideUse[], clock: Clock) {
    this.trail = trail;
    this.uses = uses;
    this.clock = clock;
    this.early = new Int32Array(uses.length);
    this.late = new Int32Array(uses.length);
    this.work = Int32Array.from(uses, (u) => u.work);
    this.finish = new Int32Array(uses.length);
    this.latest = new Int32Array(uses.length);
    this.all = Int32Array.from(uses, (_, i) => i);
    this.order = new Int32Array(uses.length);
    this.certain = new Int32Array(uses.length);
    this.isCertain = new Uint8Array(uses.length);
  }

  /** Reads all bounds. */
  look(): void {
    const { uses, clock, early, late, finish, latest, all, isCertain } = this;
    const { bound } = this.trail;
    for (let p = 0; p < all.length; p++) {
      const i = all[p];
      const { head, headPlus, tail, tailPlus, when } = uses[i];
      if (when !== null && bound[when.b ^ 1] >= 1 - when.v) {
        isCertain[i] = OUT;
        continue;
      }
      isCertain[i] = when === null || bound[when.b] >= when.v ? 1 : 0;
      early[i] = clock.at(bound[head] + headPlus);
      late[i] = clock.at(-bound[tail] - tailPlus);
      finish[i] = bound[tail ^ 1] - tailPlus;
      latest[i] = headPlus - bound[head ^ 1];
    }
    this.sort();
  }

  private sort(): void {
    const { all, early, order, certain, isCertain, work } = this;
    let size = 0;
    let certainSize = 0;
    let most = 0;
    for (let p = 1; p < all.length; p++) {
      const i = all[p];
      let q = p;
      for (; q > 0 && early[all[q - 1]] < early[i]; q--) all[q] = all[q - 1];
      all[q] = i;
    }
    for (const i of all) {
      if (isCertain[i] === OUT) continue;
      order[size++] = i;
      if (isCertain[i] !== 0) certain[certainSize++] = i;
      if (work[i] > most) most = work[i];
    }
    this.orderSize = size;
    this.certainSize = certainSize;
    this.mostWork = most;
  }

  /**
   * Leaves out what is settled before anything that is not, one after the other: no rule follows
   * from that for what is left.
   */
  trim(): void {
    const { order, isCertain, early, late, work } = this;
    let done = NOTHING;
    let settled = 0;
    let last = this.orderSize - 1;
    for (; last >= 0; last--) {
      const i = order[last];
      if (isCertain[i] === 0 || late[i] - early[i] > work[i]) break;
      if (early[i] < done || late[i] - early[i] < work[i]) return;
      done = late[i];
      settled++;
    }
    if (last >= 0 && settled > 0 && done > early[order[last]]) settled--;
    this.orderSize -= settled;
    this.certainSize -= settled;
  }

  /**
   * With `i` (-1: without) the certain tasks from some earliest start on that are to be done by
   * `limit` take too long: that start, or NOTHING; NEVER if `i` alone does. The fewest that do.
   */
  overloadAt(i: number, limit: number): number {
    const { certain, certainSize, early, late, work } = this;
    let sum = i < 0 ? 0 : work[i];
    if (i >= 0 && early[i] + sum > limit) return NEVER;
    for (let c = 0; c < certainSize; c++) {
      const j = certain[c];
      if (j === i || late[j] > limit) continue;
      sum += work[j];
      const from = i < 0 ? early[j] : Math.min(early[i], early[j]);
      if (from + sum > limit) return early[j];
    }
    return NOTHING;
  }

  /** Work of the certain tasks other than `i` that start from `from` on and are done by `limit`. */
  gather(i: number, from: number, limit: number): number {
    const { certain, certainSize, early, late, work } = this;
    let sum = 0;
    for (let c = 0; c < certainSize && early[certain[c]] >= from; c++) {
      const j = certain[c];
      if (j !== i && late[j] <= limit) sum += work[j];
    }
    return sum;
  }
}
