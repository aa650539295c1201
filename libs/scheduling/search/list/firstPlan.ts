import { random, type Random } from '#kernel/random.ts';
import type { Distances } from '../../propagation/closure.ts';
import type { PureModel } from '../exact/pure.ts';
import { toLagged } from './to-lagged.ts';
import type { Pass } from './scheme.ts';
import { toProject } from './to-project.ts';
import { Sampler } from './sampling.ts';
import { NO_PLAN, type Scheme } from './scheme.ts';
import { Sorter } from './sorter.ts';

/** How far activities are drawn away from the rule, in turn, as shares of the critical path. */
const SPREADS = [0.15, 0.3, 0.6, 0.15];

/**
 * First plans: a list by the longest path still to come, then the same with random errors, each
 * followed by double justification: all as late as possible in the order of finishes, then
 * all as early as possible in the order of those starts (V. Valls, F. Ballestín,
 * S. Quintanilla, EJOR 165 (2005) 375-386).
 */
export class FirstPlans {
  private readonly scheme: Scheme;
  private readonly rng: Random;
  private readonly pass: Pass;
  private readonly sampler: Sampler;
  private readonly sorter: Sorter;
  private readonly list: Int32Array;
  private readonly finish: Int32Array;
  private readonly best: Int32Array;
  private lists = 0;

  /** `distances` are those of the closed root: activities, end, origin. */
  constructor(model: PureModel, distances: Distances, seed: number) {
    const { count } = model;
    this.scheme = toProject(model) ?? toLagged(model, distances);
    this.rng = random(seed);
    this.pass = this.scheme.pass();
    this.sampler = new Sampler(this.scheme, this.rng);
    this.sorter = new Sorter(this.scheme);
    this.list = new Int32Array(count);
    this.finish = new Int32Array(count);
    this.best = new Int32Array(count);
  }

  /** One list and its justification: starts of the shortest plan it led to, null if it led to none. */
  next(): Int32Array | null {
    const { list, finish, sorter, pass } = this;
    const spread = this.lists === 0 ? 0 : SPREADS[this.lists % SPREADS.length];
    this.lists++;
    this.sampler.draw(0, spread, list);
    const first = pass.run(list, 0, finish);
    if (first === NO_PLAN) return null;
    this.keep(first, 0);
    sorter.sort(finish, first, 0, list, 0);
    const late = pass.run(list, 1, finish);
    if (late === NO_PLAN) return this.best.slice();
    if (late < first) this.keep(late, 1);
    sorter.sort(finish, late, 1, list, 0);
    const early = pass.run(list, 0, finish);
    if (early < Math.min(first, late)) this.keep(early, 0);
    return this.best.slice();
  }

  private keep(makespan: number, direction: 0 | 1): void {
    const { duration } = this.scheme;
    for (let i = 0; i < duration.length; i++) {
      const done = this.finish[i];
      this.best[i] = direction === 0 ? done - duration[i] : makespan - done;
    }
  }
}
