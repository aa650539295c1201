import { firstAt } from './clock.ts';
import type { Literals } from './literal.ts';
import { NEVER, NOTHING, type UnaryTasks } from './unary-tasks.ts';

/** What was concluded of a task; with the direction and the task this is the detail of a rise. */
export const AFTER_DETECTED = 0;
export const AFTER_SET = 1;
/** Its absence, since it would come after the same and too late. */
export const ABSENT = 2;
export const ABSENT_OVERLOAD = 4;
export const KINDS = 8;

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

/** Why the rules of `unary` concluded what they did, in one direction of time. See there for the papers. */
export class UnaryReasons {
  private readonly tasks: UnaryTasks;

  constructor(tasks: UnaryTasks) {
    this.tasks = tasks;
  }

  explain(v: number, detail: number, out: Literals): void {
    const i = Math.floor(detail / KINDS);
    const kind = detail % KINDS;
    const { head, headPlus, when } = this.tasks.uses[i];
    this.tasks.look();
    if (kind === ABSENT_OVERLOAD) {
      this.explainAbsence(i, out);
      return;
    }
    let moment = v + headPlus;
    if (kind >= ABSENT) {
      moment = this.tasks.latest[i] + 1;
      out.add(head ^ 1, headPlus - moment + 1);
    } else if (when !== null) out.add(when.b, when.v);
    if (kind === AFTER_SET || kind === ABSENT + AFTER_SET) this.explainSet(i, moment, out);
    else this.explainDetected(i, moment, out);
  }

  explainOverload(out: Literals): void {
    for (let c = 0; c < this.tasks.certainSize; c++) {
      const limit = this.tasks.late[this.tasks.certain[c]];
      const from = this.tasks.overloadAt(-1, limit);
      if (from === NOTHING) continue;
      const spare = from + this.tasks.gather(-1, from, limit) - limit - 1;
      this.addWindow({ i: -1, start: from, spare, from, limit, inner: NEVER, spareInner: 0 }, out);
      return;
    }
    throw new Error('there is no overload');
  }

  private explainAbsence(i: number, out: Literals): void {
    for (let c = -1; c < this.tasks.certainSize; c++) {
      const limit = Math.max(
        this.tasks.late[i],
        c < 0 ? NOTHING : this.tasks.late[this.tasks.certain[c]],
      );
      const from = this.tasks.overloadAt(i, limit);
      if (from === NOTHING) continue;
      const start = Math.min(from, this.tasks.early[i]);
      const spare = start + this.tasks.gather(i, from, limit) + this.tasks.work[i] - limit - 1;
      this.addFinish(i, limit, out);
      this.addWindow({ i, start, spare, from, limit, inner: NEVER, spareInner: 0 }, out);
      return;
    }
    throw new Error('there is no overload with this task');
  }

  /** Task `i` cannot start before `moment`, since it comes after a set that takes until then. */
  private explainSet(i: number, moment: number, out: Literals): void {
    const { certain, certainSize, early, late, work, clock } = this.tasks;
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
    const { certain, certainSize, early, late, work } = this.tasks;
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
    const { certain, certainSize, early, work, finish, latest } = this.tasks;
    const wanted = this.tasks.clock.at(moment - 1) + 1;
    let sum = 0;
    let turn = NOTHING;
    for (let c = 0; c < certainSize; c++) {
      const j = certain[c];
      if (j === i || latest[j] >= finish[i]) continue;
      if (finish[j] >= moment) {
        const { tail, tailPlus } = this.tasks.uses[j];
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
    const { head, headPlus } = this.tasks.uses[j];
    out.add(head ^ 1, headPlus - turn + 1);
    this.addCertain(j, out);
    const { tail, tailPlus } = this.tasks.uses[i];
    out.add(tail ^ 1, turn + tailPlus);
  }

  private addStart(i: number, c: number, out: Literals): void {
    const { head, headPlus } = this.tasks.uses[i];
    out.add(head, firstAt(this.tasks.clock, c) - headPlus);
  }

  private addFinish(i: number, c: number, out: Literals): void {
    const { tail, tailPlus } = this.tasks.uses[i];
    out.add(tail, -this.tasks.clock.back(c) - tailPlus);
  }

  private addCertain(i: number, out: Literals): void {
    const { when } = this.tasks.uses[i];
    if (when !== null) out.add(when.b, when.v);
  }
}
