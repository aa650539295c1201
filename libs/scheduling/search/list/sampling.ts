import type { Random } from '#kernel/random.ts';
import type { Direction, Scheme } from './scheme.ts';

/**
 * Lists in the order of the longest path that is still to come, each activity's drawn away from its
 * place by up to `spread` of the shortest makespan possible: from a rule (0) to nearly random (1).
 */
export class Sampler {
  private readonly scheme: Scheme;
  private readonly rng: Random;
  private readonly priority: Float64Array;
  private readonly waits: Int32Array;
  private readonly open: Int32Array;

  constructor(scheme: Scheme, rng: Random) {
    this.scheme = scheme;
    this.rng = rng;
    this.priority = new Float64Array(scheme.count);
    this.waits = new Int32Array(scheme.count);
    this.open = new Int32Array(scheme.count);
  }

  /** Writes one list for generation in `direction`. O(count x activities open at once). */
  draw(direction: Direction, spread: number, list: Int32Array): void {
    const { priority, waits, open, rng } = this;
    const { count, urgency, least } = this.scheme;
    const { first } = this.scheme.before[direction];
    const after = this.scheme.after[direction];
    let active = 0;
    for (let i = 0; i < count; i++) {
      priority[i] = urgency[direction][i] + (rng.unit() - 0.5) * 2 * spread * least;
      waits[i] = first[i + 1] - first[i];
      if (waits[i] === 0) open[active++] = i;
    }
    for (let k = 0; k < count; k++) {
      let best = 0;
      for (let x = 1; x < active; x++) if (priority[open[x]] > priority[open[best]]) best = x;
      const i = open[best];
      open[best] = open[--active];
      list[k] = i;
      for (let p = after.first[i]; p < after.first[i + 1]; p++) {
        const j = after.to[p];
        if (--waits[j] === 0) open[active++] = j;
      }
    }
  }
}
