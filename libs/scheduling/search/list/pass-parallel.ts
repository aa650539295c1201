import type { Packing } from './packing.ts';
import type { Pass } from './scheme.ts';
import type { Project } from './project.ts';
import type { Direction, Links } from './scheme.ts';

/**
 * Parallel generation: time moves from finish to finish, and at each moment whatever may begin and
 * fits begins, in the order of the list, which need not respect precedence (R. Kolisch, EJOR 90
 * (1996) 320-333). Its plans use the first periods well, but may miss every optimum.
 */
export class ParallelPass implements Pass {
  private readonly count: number;
  private readonly duration: Int32Array;
  private readonly packing: Packing;
  private readonly links: readonly [Links, Links];
  private readonly free: Int32Array;
  private readonly waits: Int32Array;
  /** Unplaced, in the order of the list. */
  private readonly rest: Int32Array;
  private readonly running: Int32Array;

  constructor(project: Project) {
    this.count = project.count;
    this.duration = project.duration;
    this.packing = project.packing;
    this.links = project.before;
    this.free = new Int32Array(project.packing.words);
    this.waits = new Int32Array(project.count);
    this.rest = new Int32Array(project.count);
    this.running = new Int32Array(project.count);
  }

  /** As `Pass.run`, one generation. O(count x moments). */
  run(list: Int32Array, direction: Direction, finish: Int32Array): number {
    const { count, waits, rest, running } = this;
    const before = this.links[direction];
    this.free.set(this.packing.capacity);
    for (let k = 0; k < count; k++) {
      waits[k] = before.first[k + 1] - before.first[k];
      rest[k] = list[k];
    }
    let left = count;
    let active = 0;
    let now = 0;
    for (;;) {
      // Work of no length lets others begin at the same moment: look again.
      for (let again = true; again;) {
        again = false;
        let kept = 0;
        for (let k = 0; k < left; k++) {
          const i = rest[k];
          if (waits[i] > 0 || !this.take(i)) {
            rest[kept++] = i;
            continue;
          }
          finish[i] = now + this.duration[i];
          if (this.duration[i] > 0) running[active++] = i;
          else {
            this.release(i, direction);
            again = true;
          }
        }
        left = kept;
      }
      if (active === 0) return now;
      let next = finish[running[0]];
      for (let k = 1; k < active; k++) next = Math.min(next, finish[running[k]]);
      now = next;
      let still = 0;
      for (let k = 0; k < active; k++) {
        const i = running[k];
        if (finish[i] > now) running[still++] = i;
        else this.release(i, direction);
      }
      active = still;
    }
  }

  /** Takes what `i` asks from what is free now, if it fits. */
  private take(i: number): boolean {
    if (this.duration[i] === 0) return true;
    const { words, guard, demand } = this.packing;
    for (let w = 0; w < words; w++) {
      if (((this.free[w] - demand[i * words + w]) & guard) !== guard) return false;
    }
    for (let w = 0; w < words; w++) this.free[w] -= demand[i * words + w];
    return true;
  }

  /** Gives back what `i` took, and lets what follows it begin. */
  private release(i: number, direction: Direction): void {
    const { words, demand } = this.packing;
    if (this.duration[i] > 0) {
      for (let w = 0; w < words; w++) this.free[w] += demand[i * words + w];
    }
    const after = this.links[1 - direction];
    for (let p = after.first[i], last = after.first[i + 1]; p < last; p++)
      this.waits[after.to[p]]--;
  }
}
