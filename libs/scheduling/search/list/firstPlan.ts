import { random, type Random } from '#kernel/random.ts';
import type { Distances } from '../../propagation/closure.ts';
import { isFeasible, makespanOf, type PureModel } from '../exact/pure.ts';
import { generate } from './serial.ts';

/** How far a latest start is drawn away from its place in a randomised list, as a share of the horizon of starts. */
const SPREAD = 0.15;

/**
 * Lists for the first plans: the order of latest starts, then the same with random errors;
 * unscheduling drops little and much in turn. One call of `next` is one list.
 */
export class FirstPlans {
  private readonly model: PureModel;
  private readonly distances: Distances;
  private readonly rng: Random;
  private lists = 0;

  constructor(model: PureModel, distances: Distances, seed: number) {
    this.model = model;
    this.distances = distances;
    this.rng = random(seed);
  }

  /** Starts of a feasible plan, or null if this list led to none. */
  next(): Int32Array | null {
    const { model, distances } = this;
    const list = this.lists++;
    const starts = generate(
      model,
      distances,
      this.priority(list > 1),
      list % 2 === 0 ? 'violated' : 'later',
      10 * model.count,
    );
    return starts !== null && isFeasible(model, starts) ? starts : null;
  }

  makespan(starts: Int32Array): number {
    return makespanOf(this.model, starts);
  }

  /** Latest starts relative to the makespan's path, which does not depend on how far the horizon is. */
  private priority(randomised: boolean): Float64Array {
    const { count } = this.model;
    const length = this.distances.at(count + 1, count);
    return Float64Array.from({ length: count }, (_, i) => {
      const latest = -Math.max(this.distances.at(i, count), -length);
      return randomised ? latest + (this.rng.unit() - 0.5) * 2 * SPREAD * length : latest;
    });
  }
}
