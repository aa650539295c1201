import { firstAt, type Clock } from './clock.ts';
import type { Literals } from './literal.ts';
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

const NOTHING = -0x3fffffff;
/** Neither certain nor possible. */
const OUT = 2;
/** Later than any moment. */
const NEVER = 0x3fffffff;

/** What was concluded of a task; with the direction and the task this is the detail of a rise. */
const AFTER_DETECTED = 0;
const AFTER_SET = 1;
/** Its absence, since it would come after the same and too late. */
const ABSENT = 2;
const ABSENT_OVERLOAD = 4;
const KINDS = 8;

/**
 * The certain tasks other than `i` that start from `from` on, on the clock, and are done by
 * `limit`: with `i` they would take `spare` longer than there is from `start` on. Those of them from
 * `inner` on take `spareInner` longer than is asked of them.
 */
interface Window {
  readonly i: number;
  readonly start: number;
  readonly spare: number;
  readonly from: number;
  readonly limit: number;
  readonly inner: number;
  readonly spareInner: number;
}

/** The rules of `unary` for one direction of time. See there for the papers. */
export class UnarySide {
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly direction: number;
  private readonly uses: readonly SideUse[];
  private readonly clock: Clock;
  /** Earliest start and latest finish on the clock, and the work. */
  private readonly early: Int32Array;
  private readonly late: Int32Array;
  private readonly work: Int32Array;
  /** Earliest finish and latest start, moments. */
  private readonly finish: Int32Array;
  private readonly latest: Int32Array;
  private mostWork = 0;
  /** All tasks, by earliest start when last seen, the latest first. */
  private readonly all: Int32Array;
  /** Those that are not absent, and those of them that are certain. */
  private readonly order: Int32Array;
  private readonly certain: Int32Array;
  /** 1, 0 where it is only possible, or OUT. */
  private readonly isCertain: Uint8Array;
  private orderSize = 0;
  private certainSize = 0;
  /** By task: when those gathered at or after its earliest start are done. */
  private readonly done: Int32Array;

  constructor(
    trail: Trail,
    reason: number,
    direction: number,
    uses: readonly SideUse[],
    clock: Clock,
  ) {
    this.trail = trail;
    this.reason = reason;
    this.direction = direction;
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
    this.done = new Int32Array(uses.length);
  }

  propagate(conflict: Literals): boolean {
    this.look();
    if (this.certainSize === 0) return true;
    for (let c = 0; c < this.certainSize; c++) {
      if (!this.findEdges(this.late[this.certain[c]], conflict)) return false;
    }
    for (let o = 0; o < this.orderSize; o++) {
      const i = this.order[o];
      if (!this.follow(i)) return false;
      if (this.isCertain[i] === 0 && !this.refuteOverload(i)) return false;
    }
    return true;
  }

  /** Reads all bounds. */
  private look(): void {
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

  /** Edge-finding and overload for what has to be done by `limit`. */
  private findEdges(limit: number, conflict: Literals): boolean {
    const { order, orderSize, isCertain, early, late, work, done } = this;
    let sum = 0;
    let all = NOTHING;
    for (let o = 0; o < orderSize; o++) {
      const i = order[o];
      if (isCertain[i] !== 0 && late[i] <= limit) {
        sum += work[i];
        all = Math.max(all, early[i] + sum);
      }
      done[i] = all;
    }
    if (all > limit) {
      this.explainOverload(conflict);
      return false;
    }
    if (all + this.mostWork <= limit) return true;
    let latest = NOTHING;
    for (let o = orderSize - 1; o >= 0; o--) {
      const i = order[o];
      if (isCertain[i] !== 0 && late[i] <= limit) {
        latest = Math.max(latest, early[i] + sum);
        sum -= work[i];
      } else if (late[i] > limit) {
        if (latest + work[i] > limit) {
          if (!this.pushTo(i, all, AFTER_SET)) return false;
        } else if (early[i] + sum + work[i] > limit && !this.pushTo(i, done[i], AFTER_SET)) {
          return false;
        }
      } else if (Math.max(latest, early[i] + sum) + work[i] > limit) {
        if (!this.refute(i, ABSENT_OVERLOAD)) return false;
      }
    }
    return true;
  }

  /** What is certain and has to begin before `i` can finish comes first. */
  private follow(i: number): boolean {
    const { certain, certainSize, early, work, uses, finish, latest } = this;
    const turn = finish[i];
    let sum = 0;
    let all = NOTHING;
    let moment = NOTHING;
    for (let c = 0; c < certainSize; c++) {
      const j = certain[c];
      if (latest[j] >= turn || j === i) continue;
      sum += work[j];
      if (early[j] + sum > all) all = early[j] + sum;
      if (finish[j] > moment) moment = finish[j];
    }
    if (moment === NOTHING) return true;
    const { head, headPlus } = uses[i];
    const { bound } = this.trail;
    // Reading the clock backwards is the dearer way round.
    if (this.clock.at(bound[head] + headPlus) < all)
      moment = Math.max(moment, firstAt(this.clock, all));
    return this.push(i, moment, AFTER_DETECTED);
  }

  private pushTo(i: number, c: number, kind: number): boolean {
    if (c <= this.early[i]) return true;
    return this.push(i, firstAt(this.clock, c), kind);
  }

  /** Task `i` starts no earlier than this moment, if it is present. */
  private push(i: number, moment: number, kind: number): boolean {
    const { trail, reason, direction } = this;
    const { head, headPlus } = this.uses[i];
    const value = moment - headPlus;
    if (value <= trail.bound[head]) return true;
    if (this.isCertain[i] !== 0)
      return trail.raise(head, value, reason, ((i * KINDS + kind) << 1) | direction);
    return value + trail.bound[head ^ 1] <= 0 || this.refute(i, ABSENT + kind);
  }

  /** Task `i` is absent: it would take too long together with what is certain. */
  private refute(i: number, kind: number): boolean {
    const { when } = this.uses[i];
    const { trail, reason, direction } = this;
    if (when === null || trail.bound[when.b ^ 1] >= 1 - when.v) return true;
    return trail.raise(when.b ^ 1, 1 - when.v, reason, ((i * KINDS + kind) << 1) | direction);
  }

  /** Whether `i` and what has to be done by its own latest finish take too long. */
  private refuteOverload(i: number): boolean {
    return this.overloadAt(i, this.late[i]) === NOTHING || this.refute(i, ABSENT_OVERLOAD);
  }

  /**
   * With `i` (-1: without) the certain tasks from some earliest start on that are to be done by
   * `limit` take too long: that start, or NOTHING; NEVER if `i` alone does. The fewest that do.
   */
  private overloadAt(i: number, limit: number): number {
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

  explain(v: number, detail: number, out: Literals): void {
    const i = Math.floor(detail / KINDS);
    const kind = detail % KINDS;
    const { head, headPlus, when } = this.uses[i];
    this.look();
    if (kind === ABSENT_OVERLOAD) {
      this.explainAbsence(i, out);
      return;
    }
    let moment = v + headPlus;
    if (kind >= ABSENT) {
      moment = this.latest[i] + 1;
      out.add(head ^ 1, headPlus - moment + 1);
    } else if (when !== null) out.add(when.b, when.v);
    if (kind === AFTER_SET || kind === ABSENT + AFTER_SET) this.explainSet(i, moment, out);
    else this.explainDetected(i, moment, out);
  }

  private explainOverload(out: Literals): void {
    for (let c = 0; c < this.certainSize; c++) {
      const limit = this.late[this.certain[c]];
      const from = this.overloadAt(-1, limit);
      if (from === NOTHING) continue;
      const spare = from + this.gather(-1, from, limit) - limit - 1;
      this.addWindow({ i: -1, start: from, spare, from, limit, inner: NEVER, spareInner: 0 }, out);
      return;
    }
    throw new Error('there is no overload');
  }

  private explainAbsence(i: number, out: Literals): void {
    for (let c = -1; c < this.certainSize; c++) {
      const limit = Math.max(this.late[i], c < 0 ? NOTHING : this.late[this.certain[c]]);
      const from = this.overloadAt(i, limit);
      if (from === NOTHING) continue;
      const start = Math.min(from, this.early[i]);
      const spare = start + this.gather(i, from, limit) + this.work[i] - limit - 1;
      this.addFinish(i, limit, out);
      this.addWindow({ i, start, spare, from, limit, inner: NEVER, spareInner: 0 }, out);
      return;
    }
    throw new Error('there is no overload with this task');
  }

  /** Work of the certain tasks other than `i` that start from `from` on and are done by `limit`. */
  private gather(i: number, from: number, limit: number): number {
    const { certain, certainSize, early, late, work } = this;
    let sum = 0;
    for (let c = 0; c < certainSize && early[certain[c]] >= from; c++) {
      const j = certain[c];
      if (j !== i && late[j] <= limit) sum += work[j];
    }
    return sum;
  }

  /** Task `i` cannot start before `moment`, since it comes after a set that takes until then. */
  private explainSet(i: number, moment: number, out: Literals): void {
    const { certain, certainSize, early, late, work, clock } = this;
    const wanted = clock.at(moment - 1) + 1;
    for (let k = 0; k < certainSize; k++) {
      const limit = late[certain[k]];
      if (limit >= late[i]) continue;
      let sum = 0;
      let inner = NOTHING;
      let spareInner = 0;
      for (let c = 0; c < certainSize; c++) {
        const j = certain[c];
        if (j === i || late[j] > limit) continue;
        sum += work[j];
        if (inner === NOTHING && early[j] + sum >= wanted) {
          inner = early[j];
          spareInner = early[j] + sum - wanted;
        }
        const start = Math.min(early[j], early[i]);
        const spare = start + sum + work[i] - limit - 1;
        if (inner === NOTHING || spare < 0) continue;
        this.addWindow({ i, start, spare, from: early[j], limit, inner, spareInner }, out);
        return;
      }
    }
    throw new Error('there is no set that this task comes after');
  }

  /** What makes a window too full; what is to spare first leaves tasks out, then weakens the starts. */
  private addWindow(window: Window, out: Literals): void {
    const { certain, certainSize, early, late, work } = this;
    const { i, start, from, limit, inner } = window;
    let { spare, spareInner } = window;
    let insiders = 0;
    const kept: number[] = [];
    for (let c = 0; c < certainSize && early[certain[c]] >= from; c++) {
      const j = certain[c];
      if (j === i || late[j] > limit) continue;
      kept.push(j);
      if (early[j] >= inner) insiders++;
    }
    for (let k = kept.length - 1; k >= 0; k--) {
      const j = kept[k];
      const inside = early[j] >= inner;
      if (work[j] > spare || (inside && (work[j] > spareInner || insiders === 1))) continue;
      spare -= work[j];
      if (inside) {
        spareInner -= work[j];
        insiders--;
      }
      kept.splice(k, 1);
    }
    if (i >= 0) this.addStart(i, start - spare, out);
    for (const j of kept) {
      const least = early[j] >= inner ? Math.max(start - spare, inner - spareInner) : start - spare;
      this.addStart(j, least, out);
      this.addFinish(j, limit, out);
      this.addCertain(j, out);
    }
  }

  /** Task `i` cannot start before `moment`, since it ends after others have to begin. */
  private explainDetected(i: number, moment: number, out: Literals): void {
    const { certain, certainSize, early, work, finish, latest } = this;
    const wanted = this.clock.at(moment - 1) + 1;
    let sum = 0;
    let turn = NOTHING;
    for (let c = 0; c < certainSize; c++) {
      const j = certain[c];
      if (j === i || latest[j] >= finish[i]) continue;
      if (finish[j] >= moment) {
        const { tail, tailPlus } = this.uses[j];
        out.add(tail ^ 1, moment + tailPlus);
        this.addBefore(i, j, latest[j] + 1, out);
        return;
      }
      sum += work[j];
      turn = Math.max(turn, latest[j] + 1);
      if (early[j] + sum < wanted) continue;
      for (let d = 0; d <= c; d++) {
        const other = certain[d];
        if (other === i || latest[other] >= finish[i]) continue;
        this.addStart(other, wanted - sum, out);
        this.addBefore(i, other, turn, out);
      }
      return;
    }
    throw new Error('there is nothing that comes before this task');
  }

  /** Task `j` is certain and has to begin before `turn`, and `i` cannot be done by then. */
  private addBefore(i: number, j: number, turn: number, out: Literals): void {
    const { head, headPlus } = this.uses[j];
    out.add(head ^ 1, headPlus - turn + 1);
    this.addCertain(j, out);
    const { tail, tailPlus } = this.uses[i];
    out.add(tail ^ 1, turn + tailPlus);
  }

  private addStart(i: number, c: number, out: Literals): void {
    const { head, headPlus } = this.uses[i];
    out.add(head, firstAt(this.clock, c) - headPlus);
  }

  private addFinish(i: number, c: number, out: Literals): void {
    const { tail, tailPlus } = this.uses[i];
    out.add(tail, -this.clock.back(c) - tailPlus);
  }

  private addCertain(i: number, out: Literals): void {
    const { when } = this.uses[i];
    if (when !== null) out.add(when.b, when.v);
  }
}
