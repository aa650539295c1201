import type { Direction, Pass } from './scheme.ts';
import type { Project } from './project.ts';

/** No event follows. */
const END = -1;

/**
 * Serial generation for a project on any clock. Work starts at 0 or when other work finishes, so
 * what is free is a step function that changes at finishes only: a linked list of events, event 0
 * at time 0 and event k + 1 where the k-th placed activity finishes, unless an event is there
 * already. The search for room begins at the event of the last predecessor and needs no look-up.
 * O(events passed x words) for an activity.
 */
export class EventPass implements Pass {
  private readonly project: Project;
  private readonly time: Int32Array;
  /** What is free from an event to the next, by event, by word; everything after the last. */
  private readonly free: Int32Array;
  private readonly next: Int32Array;
  /** By activity, the event at which it finishes. */
  private readonly event: Int32Array;

  constructor(project: Project) {
    const { count, packing } = project;
    this.project = project;
    this.time = new Int32Array(count + 1);
    this.free = new Int32Array((count + 1) * packing.words);
    this.next = new Int32Array(count + 1);
    this.event = new Int32Array(count);
  }

  run(list: Int32Array, direction: Direction, finish: Int32Array): number {
    return this.project.packing.words === 1
      ? this.runWord(list, direction, finish)
      : this.runWords(list, direction, finish);
  }

  /** All resources in one word: `runWords` without its loops over words. */
  private runWord(list: Int32Array, direction: Direction, finish: Int32Array): number {
    const { time, free, next, event } = this;
    const { count, duration, packing } = this.project;
    const { demand, guard } = packing;
    const { first, to } = this.project.before[direction];
    const all = packing.capacity[0];
    free[0] = all;
    next[0] = END;
    let makespan = 0;
    let events = 1;
    for (let k = 0; k < count; k++) {
      const i = list[k];
      let start = 0;
      let from = 0;
      for (let p = first[i], last = first[i + 1]; p < last; p++) {
        const j = to[p];
        if (finish[j] > start) {
          start = finish[j];
          from = event[j];
        }
      }
      const asked = demand[i];
      const length = duration[i];
      let end = start + length;
      let before = from;
      let e = from;
      while (e !== END && time[e] < end) {
        before = e;
        e = next[e];
        if (((free[before] - asked) & guard) === guard) continue;
        // Something runs here, so it ends at an event.
        from = e;
        before = e;
        end = time[e] + length;
      }
      finish[i] = end;
      if (length === 0) {
        event[i] = from;
        continue;
      }
      if (end > makespan) makespan = end;
      if (e === END || time[e] > end) {
        time[events] = end;
        free[events] = free[before];
        next[events] = e;
        next[before] = events;
        e = events++;
      }
      event[i] = e;
      for (let s = from; s !== e; s = next[s]) free[s] -= asked;
    }
    return makespan;
  }

  private runWords(list: Int32Array, direction: Direction, finish: Int32Array): number {
    const { time, free, next, event } = this;
    const { count, duration, packing } = this.project;
    const { demand, words } = packing;
    const { first, to } = this.project.before[direction];
    free.set(packing.capacity);
    next[0] = END;
    let makespan = 0;
    let events = 1;
    for (let k = 0; k < count; k++) {
      const i = list[k];
      let start = 0;
      let from = 0;
      for (let p = first[i], last = first[i + 1]; p < last; p++) {
        const j = to[p];
        if (finish[j] > start) {
          start = finish[j];
          from = event[j];
        }
      }
      const length = duration[i];
      let end = start + length;
      let before = from;
      let e = from;
      while (e !== END && time[e] < end) {
        before = e;
        e = next[e];
        if (this.fits(before, i)) continue;
        from = e;
        before = e;
        end = time[e] + length;
      }
      finish[i] = end;
      if (length === 0) {
        event[i] = from;
        continue;
      }
      if (end > makespan) makespan = end;
      if (e === END || time[e] > end) {
        time[events] = end;
        free.copyWithin(events * words, before * words, (before + 1) * words);
        next[events] = e;
        next[before] = events;
        e = events++;
      }
      event[i] = e;
      for (let s = from; s !== e; s = next[s]) {
        for (let w = 0; w < words; w++) free[s * words + w] -= demand[i * words + w];
      }
    }
    return makespan;
  }

  private fits(e: number, i: number): boolean {
    const { words, guard, demand } = this.project.packing;
    for (let w = 0; w < words; w++) {
      if (((this.free[e * words + w] - demand[i * words + w]) & guard) !== guard) return false;
    }
    return true;
  }
}
