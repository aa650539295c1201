import { doubled } from '../../propagation/literal.ts';

const EMPTY = -1;

/** Questions "is variable x at least `at`?", numbered in the order in which they were first met. */
export class Splits {
  variable = new Int32Array(1024);
  at = new Int32Array(1024);
  count = 0;
  /** Open addressing with linear probing; at most half full. */
  private slots = new Int32Array(2048).fill(EMPTY);

  /** The number of a question, given to it now if it is new. */
  find(x: number, at: number): number {
    let slot = this.slotOf(x, at);
    if (this.slots[slot] !== EMPTY) return this.slots[slot];
    if (this.count === this.variable.length) {
      this.grow();
      slot = this.slotOf(x, at);
    }
    const id = this.count++;
    this.variable[id] = x;
    this.at[id] = at;
    this.slots[slot] = id;
    return id;
  }

  /** Where the question is, or where it would go. */
  private slotOf(x: number, at: number): number {
    const { slots, variable } = this;
    const mask = slots.length - 1;
    let slot = (Math.imul(x, 0x9e3779b1) ^ Math.imul(at, 0x85ebca6b)) >>> 7;
    for (slot &= mask; slots[slot] !== EMPTY; slot = (slot + 1) & mask) {
      const id = slots[slot];
      if (variable[id] === x && this.at[id] === at) break;
    }
    return slot;
  }

  /** Keeps these questions only, numbered anew in this order. */
  keep(ids: Int32Array): void {
    const variable = ids.map((id) => this.variable[id]);
    const at = ids.map((id) => this.at[id]);
    this.variable.set(variable);
    this.at.set(at);
    this.count = ids.length;
    this.slots.fill(EMPTY);
    for (let id = 0; id < this.count; id++)
      this.slots[this.slotOf(this.variable[id], this.at[id])] = id;
  }

  private grow(): void {
    this.variable = doubled(this.variable);
    this.at = doubled(this.at);
    this.slots = doubled(this.slots).fill(EMPTY);
    for (let id = 0; id < this.count; id++)
      this.slots[this.slotOf(this.variable[id], this.at[id])] = id;
  }
}
