import type { Project } from './project.ts';
import type { Direction, Pass } from './scheme.ts';

/**
 * Serial generation for a project with a cell a period and all resources in one word.
 * Room is looked for from the last period back, and after one that is too full only in what was not
 * seen yet. O(periods passed) for an activity.
 */
export class PeriodPass implements Pass {
  private readonly project: Project;
  private readonly capacity: number;
  private readonly free: Int32Array;
  /** Periods from here on are free. */
  private used = 0;

  constructor(project: Project) {
    this.project = project;
    this.capacity = project.packing.capacity[0];
    this.free = new Int32Array(project.span + 1).fill(this.capacity);
  }

  run(list: Int32Array, direction: Direction, finish: Int32Array): number {
    const { free } = this;
    const { count, duration } = this.project;
    const { demand, guard } = this.project.packing;
    const { first, to } = this.project.before[direction];
    free.fill(this.capacity, 0, this.used);
    let makespan = 0;
    for (let k = 0; k < count; k++) {
      const i = list[k];
      let start = 0;
      for (let p = first[i], last = first[i + 1]; p < last; p++) {
        const done = finish[to[p]];
        if (done > start) start = done;
      }
      const length = duration[i];
      const asked = demand[i];
      let end = start + length;
      let seen = start;
      for (let t = end - 1; t >= seen; t--) {
        if (((free[t] - asked) & guard) === guard) continue;
        start = t + 1;
        seen = end;
        end = start + length;
        t = end;
      }
      for (let t = start; t < end; t++) free[t] -= asked;
      finish[i] = end;
      if (end > makespan) makespan = end;
    }
    this.used = makespan;
    return makespan;
  }
}
