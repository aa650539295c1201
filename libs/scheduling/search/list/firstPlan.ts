import { random, type Random } from '#kernel/random.ts';
import type { Distances } from '../../propagation/closure.ts';
import { isFeasible, makespanOf, type PureModel } from '../exact/pure.ts';
import { mirrored, reflect } from './mirror.ts';
import { generate, type Dropping } from './serial.ts';

/** How far a latest start is drawn away from its place in a randomised list, as a share of the critical path. */
const SPREAD = 0.15;

/**
 * First plans: lists in the order of latest starts, then the same with random errors, each
 * followed by double justification: all as late as possible in the order of finishes, then
 * all as early as possible in the order of those starts (V. Valls, F. Ballestín,
 * S. Quintanilla, EJOR 165 (2005) 375-386). Unscheduling drops little and much in turn.
 */
export class FirstPlans {
  private readonly model: PureModel;
  private readonly distances: Distances;
  private readonly backwards: Distances;
  private readonly rng: Random;
  private lists = 0;

  constructor(model: PureModel, distances: Distances, seed: number) {
    this.model = model;
    this.distances = distances;
    this.backwards = mirrored(model, distances);
    this.rng = random(seed);
  }

  /** One list: starts of a feasible plan, or null if it led to none. */
  next(): Int32Array | null {
    const list = this.lists++;
    const dropping = list % 2 === 0 ? 'violated' : 'later';
    const starts = this.run(this.distances, this.priority(list > 1), dropping);
    if (starts === null) return null;
    const justified = this.justify(starts, dropping);
    if (justified === null) return starts;
    return makespanOf(this.model, justified) < makespanOf(this.model, starts) ? justified : starts;
  }

  private run(
    distances: Distances,
    priority: ArrayLike<number>,
    dropping: Dropping,
  ): Int32Array | null {
    return generate(
      this.model,
      distances,
      Float64Array.from(priority),
      dropping,
      10 * this.model.count,
    );
  }

  /** Starts after double justification, null if one of the two passes finds none. */
  private justify(starts: Int32Array, dropping: Dropping): Int32Array | null {
    const { model } = this;
    const late = this.run(this.backwards, reflect(model, starts), dropping);
    if (late === null) return null;
    const early = this.run(this.distances, reflect(model, late), dropping);
    return early !== null && isFeasible(model, early) ? early : null;
  }

  /** Latest starts relative to the critical path, which do not depend on how far the horizon is. */
  private priority(randomised: boolean): number[] {
    const { count } = this.model;
    const length = this.distances.at(count + 1, count);
    return Array.from({ length: count }, (_, i) => {
      const latest = -Math.max(this.distances.at(i, count), -length);
      return randomised ? latest + (this.rng.unit() - 0.5) * 2 * SPREAD * length : latest;
    });
  }
}
