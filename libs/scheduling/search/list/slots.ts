import type { Direction, Scheme } from './scheme.ts';
import type { Sorter } from './sorter.ts';

/** Most steps of time in which finished work is counted. */
const STEPS = 512;

/**
 * The plans of one direction, one a slot: finishes, the list that generates in the other direction
 * and, once the slots are full, how much work is finished before each step of time.
 */
export class Slots {
  readonly direction: Direction;
  readonly makespan: Int32Array;
  /** By slot, by activity. */
  readonly finish: Int32Array;
  /** By slot, by place. */
  readonly list: Int32Array;
  /** By slot, by step. */
  done = new Int32Array(0);
  steps = 0;
  /** A step is so many bits of time. */
  shift = 0;
  private readonly scheme: Scheme;
  private readonly sorter: Sorter;

  constructor(scheme: Scheme, sorter: Sorter, direction: Direction, size: number) {
    this.scheme = scheme;
    this.sorter = sorter;
    this.direction = direction;
    this.makespan = new Int32Array(size);
    this.finish = new Int32Array(size * scheme.count);
    this.list = new Int32Array(size * scheme.count);
  }

  put(slot: number, finish: Int32Array, makespan: number): void {
    const { count } = this.scheme;
    const at = slot * count;
    for (let i = 0; i < count; i++) this.finish[at + i] = finish[i];
    this.makespan[slot] = makespan;
    this.sorter.sort(finish, makespan, this.direction, this.list, at);
    if (this.steps > 0) this.count(slot);
  }

  /** Counts the work of the `size` first from now on; no makespan may grow beyond `longest`. */
  open(longest: number, size: number): void {
    while (longest >> this.shift >= STEPS) this.shift++;
    this.steps = (longest >> this.shift) + 2;
    this.done = new Int32Array(size * this.steps);
    for (let slot = 0; slot < size; slot++) this.count(slot);
  }

  private count(slot: number): void {
    const { done, steps, shift, finish } = this;
    const { count, work } = this.scheme;
    const at = slot * steps;
    done.fill(0, at, at + steps);
    for (let i = 0; i < count; i++) done[at + (finish[slot * count + i] >> shift) + 1] += work[i];
    for (let step = 1; step < steps; step++) done[at + step] += done[at + step - 1];
  }

  /** Work finished in steps [from, to), both at most `steps - 1`. */
  workIn(slot: number, from: number, to: number): number {
    const at = slot * this.steps;
    return this.done[at + to] - this.done[at + from];
  }

  /** Moves what is in slot `from` to slot `to`. */
  move(from: number, to: number): void {
    const { count } = this.scheme;
    this.makespan[to] = this.makespan[from];
    this.finish.copyWithin(to * count, from * count, (from + 1) * count);
    this.list.copyWithin(to * count, from * count, (from + 1) * count);
    this.done.copyWithin(to * this.steps, from * this.steps, (from + 1) * this.steps);
  }
}
