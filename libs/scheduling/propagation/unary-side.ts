import { firstAt, type Clock } from './clock.ts';
import type { Literals } from './literal.ts';
import type { Trail } from './trail.ts';
import {
  ABSENT,
  ABSENT_OVERLOAD,
  AFTER_DETECTED,
  AFTER_SET,
  KINDS,
  UnaryReasons,
} from './unary-reasons.ts';
import { NOTHING, UnaryTasks, type SideUse } from './unary-tasks.ts';

/** The rules of `unary` for one direction of time. See there for the papers. */
export class UnarySide {
  private readonly trail: Trail;
  private readonly reason: number;
  private readonly direction: number;
  private readonly tasks: UnaryTasks;
  private readonly reasons: UnaryReasons;
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
    this.tasks = new UnaryTasks(trail, uses, clock);
    this.reasons = new UnaryReasons(this.tasks);
    this.done = new Int32Array(uses.length);
  }

  propagate(conflict: Literals): boolean {
    const { tasks } = this;
    tasks.look();
    tasks.trim();
    for (let c = 0; c < tasks.certainSize; c++) {
      if (!this.findEdges(tasks.late[tasks.certain[c]], conflict)) return false;
    }
    if (tasks.certainSize === 0) return true;
    for (let o = 0; o < tasks.orderSize; o++) {
      const i = tasks.order[o];
      if (!this.follow(i)) return false;
      if (tasks.isCertain[i] === 0 && !this.refuteOverload(i)) return false;
    }
    return true;
  }

  explain(v: number, detail: number, out: Literals): void {
    this.reasons.explain(v, detail, out);
  }

  /** Edge-finding and overload for what has to be done by `limit`. */
  private findEdges(limit: number, conflict: Literals): boolean {
    const { done, tasks } = this;
    const { order, orderSize, isCertain, early, late, work, mostWork } = tasks;
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
      this.reasons.explainOverload(conflict);
      return false;
    }
    if (all + mostWork <= limit) return true;
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
    const { certain, certainSize, early, work, uses, finish, latest, clock } = this.tasks;
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
    if (clock.at(bound[head] + headPlus) < all) moment = Math.max(moment, firstAt(clock, all));
    return this.push(i, moment, AFTER_DETECTED);
  }

  private pushTo(i: number, c: number, kind: number): boolean {
    if (c <= this.tasks.early[i]) return true;
    return this.push(i, firstAt(this.tasks.clock, c), kind);
  }

  /** Task `i` starts no earlier than this moment, if it is present. */
  private push(i: number, moment: number, kind: number): boolean {
    const { trail, reason, direction } = this;
    const { head, headPlus } = this.tasks.uses[i];
    const value = moment - headPlus;
    if (value <= trail.bound[head]) return true;
    if (this.tasks.isCertain[i] !== 0)
      return trail.raise(head, value, reason, ((i * KINDS + kind) << 1) | direction);
    return value + trail.bound[head ^ 1] <= 0 || this.refute(i, ABSENT + kind);
  }

  /** Task `i` is absent: it would take too long together with what is certain. */
  private refute(i: number, kind: number): boolean {
    const { when } = this.tasks.uses[i];
    const { trail, reason, direction } = this;
    if (when === null || trail.bound[when.b ^ 1] >= 1 - when.v) return true;
    return trail.raise(when.b ^ 1, 1 - when.v, reason, ((i * KINDS + kind) << 1) | direction);
  }

  /** Whether `i` and what has to be done by its own latest finish take too long. */
  private refuteOverload(i: number): boolean {
    return (
      this.tasks.overloadAt(i, this.tasks.late[i]) === NOTHING || this.refute(i, ABSENT_OVERLOAD)
    );
  }
}
