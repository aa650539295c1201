import { lowerOf, upperOf } from '../../propagation/literal.ts';
import type { Network } from '../../propagation/network.ts';
import type { Layout } from './layout.ts';

const DECAY = 0.95;
const RESCALE = 1e100;

/**
 * Which variable to decide next, and how. First by start time (earliest possible start, least
 * room), which dives to a plan; later by activity in recent conflicts. Values follow the best plan.
 *
 * Activity: M. Moskewicz et al., "Chaff", DAC 2001, on variables rather than literals. The
 * switch after a fixed number of conflicts follows A. Schutt et al., Constraints 16 (2011).
 */
export class Branching {
  private readonly network: Network;
  private readonly layout: Layout;
  private readonly activity: Float64Array;
  private increment = 1;
  /** A binary heap of variables by activity; `where` is -1 outside. */
  private readonly heap: Int32Array;
  private readonly where: Int32Array;
  private size = 0;
  /** The value of each variable in the best plan; meaningless until `follow`. */
  private readonly phase: Int32Array;
  private hasPhase = false;

  constructor(network: Network, layout: Layout) {
    this.network = network;
    this.layout = layout;
    const count = layout.variables;
    this.activity = new Float64Array(count);
    this.heap = new Int32Array(count);
    this.where = new Int32Array(count).fill(-1);
    this.phase = new Int32Array(count);
    for (let x = 0; x < count; x++) if (x !== layout.end) this.insert(x);
  }

  /** Takes the phases from the starts of a plan. */
  follow(starts: Int32Array): void {
    const { phase, layout } = this;
    phase.set(starts);
    layout.pairs.forEach(({ first, second }, k) => {
      phase[layout.firstPair + k] = starts[first] < starts[second] ? 1 : 0;
    });
    this.hasPhase = true;
  }

  bump(x: number): void {
    const { activity } = this;
    activity[x] += this.increment;
    if (activity[x] > RESCALE) {
      for (let y = 0; y < activity.length; y++) activity[y] /= RESCALE;
      this.increment /= RESCALE;
    }
    if (this.where[x] >= 0) this.rise(this.where[x]);
  }

  decay(): void {
    this.increment /= DECAY;
  }

  /** A variable's bound fell: it may be undecided again. */
  restore(x: number): void {
    if (this.where[x] < 0 && x !== this.layout.end) this.insert(x);
  }

  /** Decides one variable by start time; false if all starts are fixed. */
  byStart(): boolean {
    const { bound } = this.network.trail;
    let chosen = -1;
    let early = 0;
    let late = 0;
    for (let x = 0; x < this.layout.tasks; x++) {
      const lower = bound[lowerOf(x)];
      const upper = -bound[upperOf(x)];
      if (lower === upper) continue;
      if (chosen < 0 || lower < early || (lower === early && upper < late)) {
        chosen = x;
        early = lower;
        late = upper;
      }
    }
    if (chosen < 0) return false;
    this.network.decide(upperOf(chosen), -early);
    return true;
  }

  /** Decides the most active variable; false if all are fixed. */
  byActivity(): boolean {
    const { bound } = this.network.trail;
    while (this.size > 0) {
      const x = this.heap[0];
      const lower = bound[lowerOf(x)];
      const upper = -bound[upperOf(x)];
      if (lower < upper) {
        this.decideNear(x, lower, upper);
        return true;
      }
      this.removeTop();
    }
    return false;
  }

  private decideNear(x: number, lower: number, upper: number): void {
    const wanted = this.hasPhase ? this.phase[x] : lower;
    if (wanted >= upper) this.network.decide(lowerOf(x), upper);
    else this.network.decide(upperOf(x), -Math.max(wanted, lower));
  }

  private insert(x: number): void {
    this.heap[this.size] = x;
    this.where[x] = this.size;
    this.rise(this.size++);
  }

  private rise(position: number): void {
    const { heap, where, activity } = this;
    const x = heap[position];
    let p = position;
    while (p > 0) {
      const parent = (p - 1) >> 1;
      if (activity[heap[parent]] >= activity[x]) break;
      heap[p] = heap[parent];
      where[heap[p]] = p;
      p = parent;
    }
    heap[p] = x;
    where[x] = p;
  }

  private removeTop(): void {
    const { heap, where, activity } = this;
    where[heap[0]] = -1;
    const x = heap[--this.size];
    if (this.size === 0) return;
    let p = 0;
    for (;;) {
      let child = 2 * p + 1;
      if (child >= this.size) break;
      if (child + 1 < this.size && activity[heap[child + 1]] > activity[heap[child]]) child++;
      if (activity[heap[child]] <= activity[x]) break;
      heap[p] = heap[child];
      where[heap[p]] = p;
      p = child;
    }
    heap[p] = x;
    where[x] = p;
  }
}
