import { random, type Random } from '#kernel/random.ts';
import { Crossing } from './crossing.ts';
import type { Pass } from './scheme.ts';
import { NO_PLAN, type Direction, type Scheme } from './scheme.ts';
import { Sampler } from './sampling.ts';
import { Slots } from './slots.ts';
import { Sorter } from './sorter.ts';

/** Slots for 5,000 passes, and how they grow with the budget: measured on j60 and j120. */
const SLOTS = 60;
const GROWTH = 0.7;
const FEWEST = 8;
/** Share of the slots that is left at the end of the budget. */
const LEFT = 0.1;
/** Passes for each slot after which those that got a plan have to do. */
const PATIENCE = 4;

/**
 * Two populations, of plans pressed forwards and backwards. A child of two plans of one direction
 * is generated in the other, so that justification costs no pass of its own, and takes the place of
 * the plan in its mother's slot there unless that is shorter. Slots are given up evenly over the
 * budget, the longest plans first.
 */
export class Evolution {
  readonly budget: number;
  passes = 0;
  /** Shortest makespan generated; `NO_PLAN` at first. */
  makespan = NO_PLAN;
  /** Starts of that plan, by activity. */
  readonly starts: Int32Array;
  private readonly scheme: Scheme;
  private readonly rng: Random;
  private readonly pass: Pass;
  /** Another generator for half of the sampled lists. */
  private readonly parallel: Pass;
  private readonly sorter: Sorter;
  private readonly sampler: Sampler;
  private readonly crossing: Crossing;
  private readonly slots: readonly [Slots, Slots];
  private readonly finish: Int32Array;
  private readonly list: Int32Array;
  private size: number;
  private slot = 0;
  /** The direction of the plan made last. */
  private direction: Direction = 1;
  private isFilled = false;
  /** While the slots are filled: one of the slot's two plans is there. */
  private isHalf = false;
  private received: Int32Array | null = null;

  constructor(scheme: Scheme, seed: number, budget: number) {
    const { count } = scheme;
    this.scheme = scheme;
    this.budget = budget;
    this.rng = random(seed);
    this.pass = scheme.pass();
    this.parallel = scheme.parallel?.() ?? this.pass;
    this.sorter = new Sorter(scheme);
    this.sampler = new Sampler(scheme, this.rng);
    this.crossing = new Crossing(scheme, this.rng);
    this.size = Math.max(FEWEST, Math.round(SLOTS * (budget / 5000) ** GROWTH));
    this.slots = [
      new Slots(scheme, this.sorter, 0, this.size),
      new Slots(scheme, this.sorter, 1, this.size),
    ];
    this.starts = new Int32Array(count);
    this.finish = new Int32Array(count);
    this.list = new Int32Array(count);
  }

  /** One generation pass. */
  advance(): void {
    this.passes++;
    if (!this.isFilled) this.fill();
    else if (this.received !== null) this.settle(this.received);
    else this.breed();
  }

  /** Takes in a plan, by activity; with the next pass after the slots are filled. */
  receive(starts: Int32Array): void {
    this.received = starts;
  }

  /**
   * Slot by slot: a plan of a sampled list, forwards and backwards in turn, then that plan pressed
   * to the other side.
   */
  private fill(): void {
    const { slot, finish, list } = this;
    const first = slot % 2 === 0 ? 0 : 1;
    if (!this.isHalf) {
      this.direction = first;
      this.sampler.draw(first, this.passes === 1 ? 0 : this.rng.unit(), list);
      const pass = this.rng.below(2) === 0 ? this.pass : this.parallel;
      this.isHalf = this.generate(list, pass) < NO_PLAN;
      return;
    }
    const given = this.slots[first];
    this.direction = first === 0 ? 1 : 0;
    list.set(given.list.subarray(slot * list.length, (slot + 1) * list.length));
    if (this.generate(list, this.pass) === NO_PLAN) {
      // The plan itself, seen from the other end, where nothing can be pressed.
      const makespan = given.makespan[slot];
      for (let i = 0; i < finish.length; i++) {
        finish[i] = makespan - given.finish[slot * finish.length + i] + this.scheme.duration[i];
      }
      this.slots[this.direction].put(slot, finish, makespan);
    }
    this.isHalf = false;
    this.slot++;
    const isLate = this.passes > PATIENCE * this.slots[0].makespan.length && this.slot > 1;
    if (this.slot >= this.size || isLate) this.open();
  }

  private open(): void {
    this.isFilled = true;
    this.size = this.slot;
    this.slot = 0;
    let longest = 0;
    for (let s = 0; s < this.size; s++) {
      longest = Math.max(longest, this.slots[0].makespan[s], this.slots[1].makespan[s]);
    }
    for (const slots of this.slots) slots.open(longest, this.size);
  }

  private breed(): void {
    if (this.slot >= this.size) {
      this.slot = 0;
      this.direction = this.direction === 0 ? 1 : 0;
      this.shrink();
    }
    const from = this.direction === 0 ? 1 : 0;
    this.crossing.cross(this.slots[from], this.slot, this.size);
    this.generate(this.crossing.child, this.pass);
    this.slot++;
  }

  /** Generates in `direction` for `slot`. */
  private generate(list: Int32Array, pass: Pass): number {
    const { finish, direction, slot } = this;
    const slots = this.slots[direction];
    const makespan = pass.run(list, direction, finish);
    if (makespan < this.makespan) this.keep(makespan);
    const isKept = this.isFilled ? makespan <= slots.makespan[slot] : makespan < NO_PLAN;
    if (isKept) slots.put(slot, finish, makespan);
    return makespan;
  }

  private keep(makespan: number): void {
    const { duration } = this.scheme;
    this.makespan = makespan;
    for (let i = 0; i < duration.length; i++) {
      const done = this.finish[i];
      this.starts[i] = this.direction === 0 ? done - duration[i] : makespan - done;
    }
  }

  /** Puts a received plan and itself pressed backwards in place of the longest, if they are shorter. */
  private settle(starts: Int32Array): void {
    const { finish, list, scheme } = this;
    const { direction, slot } = this;
    const [forwards] = this.slots;
    this.received = null;
    const worst = this.longest();
    let makespan = 0;
    for (let i = 0; i < scheme.count; i++) {
      finish[i] = starts[i] + scheme.duration[i];
      makespan = Math.max(makespan, finish[i]);
    }
    if (makespan <= forwards.makespan[worst]) forwards.put(worst, finish, makespan);
    this.sorter.sort(finish, makespan, 0, list, 0);
    this.slot = worst;
    this.direction = 1;
    this.generate(list, this.pass);
    this.slot = slot;
    this.direction = direction;
  }

  /** The slot whose two plans are longest together. */
  private longest(): number {
    const [forwards, backwards] = this.slots;
    let worst = 0;
    let most = -1;
    for (let s = 0; s < this.size; s++) {
      const both = forwards.makespan[s] + backwards.makespan[s] + this.rng.unit();
      if (both > most) {
        most = both;
        worst = s;
      }
    }
    return worst;
  }

  private shrink(): void {
    const all = this.slots[0].makespan.length;
    const share = Math.max(0, 1 - this.passes / this.budget);
    const wanted = Math.max(Math.min(FEWEST, all), Math.round(all * (LEFT + (1 - LEFT) * share)));
    while (this.size > wanted) {
      const worst = this.longest();
      this.size--;
      for (const slots of this.slots) if (worst < this.size) slots.move(this.size, worst);
    }
  }
}
