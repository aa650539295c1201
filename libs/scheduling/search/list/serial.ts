import type { Distances } from '../../propagation/closure.ts';
import type { PureModel } from '../exact/pure.ts';
import { Profile } from './profile.ts';

/** Scheduled activities that stand in the way are dropped: only those now too early, or all that start later too. */
export type Dropping = 'violated' | 'later';

/**
 * Serial generation with unscheduling: activities are placed in order of priority (smallest
 * first) as soon as those that must precede them are, each at its earliest resource-feasible
 * moment. Where that lies after its latest start, the activities that hold the latest start
 * back are released so much later, and what is now too early is dropped.
 *
 * B. Franck, K. Neumann, C. Schwindt, OR Spektrum 23 (2001) 297-324. `distances` are closed
 * over the starts, with the origin as last node. Gives starts, or null after `dropLimit`
 * unscheduling steps or where a window closes. O(n^2) a step plus the resource search.
 */
export function generate(
  model: PureModel,
  distances: Distances,
  priority: Float64Array,
  dropping: Dropping,
  dropLimit: number,
): Int32Array | null {
  return new Generation(model, distances, priority).run(dropping, dropLimit);
}

class Generation {
  private readonly model: PureModel;
  private readonly distances: Distances;
  private readonly priority: Float64Array;
  private readonly profile: Profile;
  private readonly demand: readonly Int32Array[];
  private readonly starts: Int32Array;
  private readonly placed: Uint8Array;
  private readonly release: Int32Array;

  constructor(model: PureModel, distances: Distances, priority: Float64Array) {
    const { count } = model;
    this.model = model;
    this.distances = distances;
    this.priority = priority;
    this.profile = new Profile(model.capacity);
    this.demand = Array.from({ length: count }, (_, i) =>
      Int32Array.from(model.demand, (d) => d[i]),
    );
    this.starts = new Int32Array(count);
    this.placed = new Uint8Array(count);
    this.release = Int32Array.from({ length: count }, (_, i) => distances.at(count + 1, i));
  }

  run(dropping: Dropping, dropLimit: number): Int32Array | null {
    let drops = 0;
    for (;;) {
      const i = this.next();
      if (i < 0) return this.starts;
      const t = this.profile.earliest(this.earliest(i), this.model.duration[i], this.demand[i]);
      const latest = this.latest(i);
      if (t <= latest) this.place(i, t);
      else if (++drops > dropLimit || !this.makeRoom(i, t - latest, dropping)) return null;
    }
  }

  /** The unplaced activity of best priority whose predecessors are placed; -1 if none is left. */
  private next(): number {
    const { count } = this.model;
    let best = -1;
    for (let i = 0; i < count; i++) {
      if (this.placed[i] === 1 || (best >= 0 && this.priority[i] >= this.priority[best])) continue;
      if (this.isEligible(i)) best = i;
    }
    return best;
  }

  private isEligible(i: number): boolean {
    for (let k = 0; k < this.model.count; k++) {
      if (this.placed[k] === 1 || k === i) continue;
      const ahead = this.distances.at(k, i);
      if (ahead > 0 || (ahead === 0 && this.distances.at(i, k) < 0)) return false;
    }
    return true;
  }

  private earliest(i: number): number {
    let t = this.release[i];
    for (let k = 0; k < this.model.count; k++) {
      if (this.placed[k] === 1) t = Math.max(t, this.starts[k] + this.distances.at(k, i));
    }
    return t;
  }

  private latest(i: number): number {
    let t = -this.distances.at(i, this.model.count + 1);
    for (let k = 0; k < this.model.count; k++) {
      if (this.placed[k] === 1) t = Math.min(t, this.starts[k] - this.distances.at(i, k));
    }
    return t;
  }

  private place(i: number, t: number): void {
    this.starts[i] = t;
    this.placed[i] = 1;
    this.profile.change(t, t + this.model.duration[i], this.demand[i], 1);
  }

  private drop(i: number): void {
    this.placed[i] = 0;
    const t = this.starts[i];
    this.profile.change(t, t + this.model.duration[i], this.demand[i], -1);
  }

  /** Releases the activities that bind the latest start of `i` by `delay` more. False if a window closes. */
  private makeRoom(i: number, delay: number, dropping: Dropping): boolean {
    const { starts, placed, model } = this;
    const latest = this.latest(i);
    let blocked = false;
    for (let k = 0; k < model.count; k++) {
      if (placed[k] === 0 || starts[k] - this.distances.at(i, k) !== latest) continue;
      blocked = true;
      if (!this.hold(k, starts[k] + delay)) return false;
    }
    if (!blocked) return false;
    let first = Infinity;
    for (let k = 0; k < model.count; k++) {
      if (placed[k] === 1 && starts[k] < this.release[k]) {
        first = Math.min(first, starts[k]);
        this.drop(k);
      }
    }
    if (dropping === 'later') {
      for (let k = 0; k < model.count; k++) if (placed[k] === 1 && starts[k] > first) this.drop(k);
    }
    return true;
  }

  /** No start of `k` before `t`, with all that follows from it. */
  private hold(k: number, t: number): boolean {
    const { count } = this.model;
    for (let j = 0; j < count; j++) {
      const release = t + this.distances.at(k, j);
      if (release <= this.release[j]) continue;
      if (release > -this.distances.at(j, count + 1)) return false;
      this.release[j] = release;
    }
    return true;
  }
}
