import type { Lagged, Lags } from './lagged.ts';
import { EventProfile } from './profile-events.ts';
import { NO_PLAN, type Direction, type Pass } from './scheme.ts';

/** Below and above every time, and safe to add to one another. */
const NEVER = 0x20000000;
/** Times that a pass makes room, for each activity, taking much out at first and then little. */
const MUCH = 1;
const LITTLE = 3;

/**
 * Serial generation with unscheduling: where the earliest moment with room lies after the latest
 * start, the placed activities that hold the latest start back are released so much later, with
 * all that follows from it, and what is now too early is taken out: with all that starts later,
 * which makes shorter plans but more often none, and when that has gone on for long, without.
 *
 * B. Franck, K. Neumann, C. Schwindt, OR Spektrum 23 (2001) 297-324. O(count) for each placement
 * and each activity taken out, on top of the profile.
 */
export class LaggedPass implements Pass {
  private readonly scheme: Lagged;
  private readonly profile: EventProfile;
  /** Starts; `-NEVER` while not placed. */
  private readonly start: Int32Array;
  /** Starts; `NEVER` while not placed. */
  private readonly ceiling: Int32Array;
  private readonly release: Int32Array;

  constructor(scheme: Lagged) {
    this.scheme = scheme;
    this.profile = new EventProfile(scheme.packing, scheme.duration);
    this.start = new Int32Array(scheme.count);
    this.ceiling = new Int32Array(scheme.count);
    this.release = new Int32Array(scheme.count);
  }

  run(list: Int32Array, direction: Direction, finish: Int32Array): number {
    const { start, profile } = this;
    const { count, duration } = this.scheme;
    const lags = this.scheme.lags[direction];
    profile.reset();
    this.release.set(lags.earliest);
    start.fill(-NEVER);
    this.ceiling.fill(NEVER);
    let left = (MUCH + LITTLE) * count;
    for (let k = 0; k < count; k++) {
      const i = list[k];
      if (start[i] !== -NEVER) continue;
      const latest = this.latest(lags, i);
      let at = this.earliest(lags, i);
      if (at <= lags.latest[i]) at = profile.earliest(i, at);
      if (at <= latest) {
        start[i] = at;
        this.ceiling[i] = at;
        profile.take(i, at);
        continue;
      }
      const tooEarly = left-- > 0 ? this.makeRoom(lags, i, latest, at - latest) : NEVER;
      if (tooEarly === NEVER) return NO_PLAN;
      if (left >= LITTLE * count) this.takeOutAfter(tooEarly);
      k = -1;
    }
    let makespan = 0;
    for (let i = 0; i < count; i++) {
      finish[i] = start[i] + duration[i];
      makespan = Math.max(makespan, finish[i], finish[i] + lags.rest[i]);
    }
    return makespan;
  }

  private earliest({ after }: Lags, i: number): number {
    const { start } = this;
    const { count } = this.scheme;
    const row = i * count;
    let t = this.release[i];
    for (let k = 0; k < count; k++) {
      const bound = start[k] + after[row + k];
      if (bound > t) t = bound;
    }
    return t;
  }

  private latest({ ahead, latest }: Lags, i: number): number {
    const { ceiling } = this;
    const { count } = this.scheme;
    const row = i * count;
    let t = latest[i];
    for (let k = 0; k < count; k++) {
      const bound = ceiling[k] - ahead[row + k];
      if (bound < t) t = bound;
    }
    return t;
  }

  /**
   * Releases what binds the latest start of `i` by `delay` more and takes out what is too early
   * then. Gives the first start among that; `NEVER` if a window closes.
   */
  private makeRoom(lags: Lags, i: number, latest: number, delay: number): number {
    const { ceiling, start, release } = this;
    const { count } = this.scheme;
    for (let k = 0; k < count; k++) {
      if (ceiling[k] - lags.ahead[i * count + k] !== latest) continue;
      if (!this.hold(lags, k, ceiling[k] + delay)) return NEVER;
    }
    let first = NEVER;
    for (let k = 0; k < count; k++) {
      if (start[k] === -NEVER || start[k] >= release[k]) continue;
      first = Math.min(first, start[k]);
      this.takeOut(k);
    }
    return first;
  }

  private takeOutAfter(t: number): void {
    for (let k = 0; k < this.scheme.count; k++) if (this.start[k] > t) this.takeOut(k);
  }

  /** No start of `k` before `t`, with all that follows from it. */
  private hold({ ahead, latest }: Lags, k: number, t: number): boolean {
    const { release } = this;
    const { count } = this.scheme;
    for (let j = 0; j < count; j++) {
      const bound = t + ahead[k * count + j];
      if (bound <= release[j]) continue;
      if (bound > latest[j]) return false;
      release[j] = bound;
    }
    return true;
  }

  private takeOut(k: number): void {
    this.profile.give(k, this.start[k]);
    this.start[k] = -NEVER;
    this.ceiling[k] = NEVER;
  }
}
