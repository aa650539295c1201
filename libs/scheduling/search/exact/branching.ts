import { lowerOf, upperOf } from '../../propagation/literal.ts';
import type { Network } from '../../propagation/network.ts';
import { ActivityHeap } from './activity.ts';
import type { Layout } from './layout.ts';
import { Splits } from './splits.ts';

/**
 * What to decide next. First by start time (earliest possible start, least room), which dives
 * to a plan; later the question most active in recent conflicts, answered as in the best plan.
 *
 * Deciding on the literals that conflicts speak of, rather than on variables, took a third of
 * the conflicts on hard PSPLIB j30 files (20,000 against 57,000 on j3013_1). The switch after
 * a fixed number of conflicts follows A. Schutt et al., Constraints 16 (2011).
 */
export class Branching {
  private readonly network: Network;
  private readonly layout: Layout;
  private readonly splits = new Splits();
  private readonly heap = new ActivityHeap();
  /** Questions that came up when they were answered already, with the level at that time. */
  private readonly parked: number[] = [];
  private readonly parkedLevel: number[] = [];
  /** The value of each variable in the plan that is followed. */
  private readonly phase: Int32Array;

  constructor(network: Network, layout: Layout) {
    this.network = network;
    this.layout = layout;
    this.phase = new Int32Array(layout.variables);
  }

  /** Answers like the plan with these starts from now on. */
  follow(starts: Int32Array): void {
    const { phase, layout } = this;
    phase.set(starts);
    layout.pairs.forEach(({ first, second }, k) => {
      phase[layout.firstPair + k] = starts[first] < starts[second] ? 1 : 0;
    });
  }

  /** A conflict asked about the literal (b, v). */
  bump(b: number, v: number): void {
    const x = b >> 1;
    // Capping the makespan is for bounds, not for plans.
    if (x !== this.layout.end) this.heap.bump(this.splits.find(x, (b & 1) === 0 ? v : 1 - v));
  }

  /** After a conflict has been dealt with. */
  decay(): void {
    this.heap.decay();
  }

  /** After a roll back to `level`: what was answered above it is open again. */
  reopen(level: number): void {
    const { parked, parkedLevel } = this;
    while (parked.length > 0 && parkedLevel[parkedLevel.length - 1] > level) {
      this.heap.insert(parked[parked.length - 1]);
      parked.pop();
      parkedLevel.pop();
    }
  }

  /** Decides the most active open question, or else by start time; false if all starts are fixed. */
  byActivity(): boolean {
    const { network, splits, heap, parked, parkedLevel, phase } = this;
    const { bound } = network.trail;
    for (let id = heap.top(); id >= 0; id = heap.top()) {
      const x = splits.variable[id];
      const at = splits.at[id];
      if (bound[lowerOf(x)] < at && at <= -bound[upperOf(x)]) {
        if (phase[x] >= at) network.decide(lowerOf(x), at);
        else network.decide(upperOf(x), 1 - at);
        return true;
      }
      heap.pop();
      parked.push(id);
      parkedLevel.push(network.trail.level);
    }
    return this.byStart();
  }

  /** Gives the activity with the earliest possible start that start; false if all starts are fixed. */
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
}
