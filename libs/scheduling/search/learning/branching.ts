import { lowerOf, upperOf } from '../../propagation/literal.ts';
import type { Network } from '../../propagation/network.ts';
import { ActivityHeap } from './activity.ts';
import { Splits } from './splits.ts';

/** Questions remembered, about 40 bytes each; beyond it the half least active is forgotten. */
const MOST_QUESTIONS = 1 << 18;

/** What a learning search asks when it has to decide, and what it tells in return. */
export interface Branching {
  /**
   * Makes one decision through `network.decide`; false if all that makes a solution is fixed.
   * `restarts`: how often the search has begun anew; 0 during the first dives.
   */
  move(restarts: number): boolean;
  /** A conflict asked about the literal (b, v). */
  bump(b: number, v: number): void;
  /** A conflict has been dealt with. */
  decay(): void;
  /** Levels above this one have been rolled back. */
  reopen(level: number): void;
  /** Before everything is rolled back for a restart. */
  leave(): void;
}

export interface ActivityOptions {
  /** Decides when no question is open, and before the first restart; false if all is fixed. */
  readonly dive: () => boolean;
  /** Variables that conflicts may ask about, but decisions may not: caps, say. */
  readonly quiet: readonly number[];
  /** What is answered first: as in the solution followed, or as it last was before a restart. */
  readonly phase: 'followed' | 'last';
}

/**
 * First dives by the caller's own order; from the first restart on the question most active in
 * recent conflicts, answered as in the solution followed.
 *
 * Deciding on the literals that conflicts speak of, rather than on variables, took a third of
 * the conflicts on hard PSPLIB j30 files (20,000 against 57,000 on j3013_1). The switch after
 * a fixed number of conflicts follows A. Schutt et al., Constraints 16 (2011).
 */
export class ActivityBranching implements Branching {
  private readonly network: Network;
  private readonly options: ActivityOptions;
  private readonly splits = new Splits();
  private readonly heap = new ActivityHeap();
  /** Questions that came up when they were answered already, with the level at that time. */
  private readonly parked: number[] = [];
  private readonly parkedLevel: number[] = [];
  /** By variable: not to be asked about. */
  private readonly quiet: Uint8Array;
  /** The value of each variable that answers follow. */
  private readonly phase: Int32Array;

  constructor(network: Network, options: ActivityOptions) {
    this.network = network;
    this.options = options;
    const { bound } = network.trail;
    this.quiet = new Uint8Array(bound.length >> 1);
    for (const x of options.quiet) this.quiet[x] = 1;
    this.phase = Int32Array.from(this.quiet, (_, x) => bound[lowerOf(x)]);
  }

  /** Answers as in this solution from now on: a value for each variable, or for the first ones. */
  follow(values: Int32Array): void {
    this.phase.set(values);
  }

  bump(b: number, v: number): void {
    const x = b >> 1;
    if (this.quiet[x] === 0) this.heap.bump(this.splits.find(x, (b & 1) === 0 ? v : 1 - v));
  }

  decay(): void {
    this.heap.decay();
  }

  reopen(level: number): void {
    const { parked, parkedLevel } = this;
    while (parked.length > 0 && parkedLevel[parkedLevel.length - 1] > level) {
      this.heap.insert(parked[parked.length - 1]);
      parked.pop();
      parkedLevel.pop();
    }
    if (level === 0 && this.splits.count > MOST_QUESTIONS)
      this.splits.keep(this.heap.keep(MOST_QUESTIONS >> 1));
  }

  leave(): void {
    if (this.options.phase !== 'last') return;
    const { bound } = this.network.trail;
    for (let x = 0; x < this.phase.length; x++) {
      if (bound[lowerOf(x)] === -bound[upperOf(x)]) this.phase[x] = bound[lowerOf(x)];
    }
  }

  move(restarts: number): boolean {
    return (restarts > 0 && this.byActivity()) || this.options.dive();
  }

  /** Decides the most active open question; false if there is none. */
  private byActivity(): boolean {
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
    return false;
  }
}
