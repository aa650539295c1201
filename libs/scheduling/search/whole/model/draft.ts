import { Literals, lowerOf, upperOf } from '../../../propagation/literal.ts';
import { codeOf, Network, type MakePropagator } from '../../../propagation/network.ts';
import type { Propagator } from '../../../propagation/propagator.ts';
import { Trail } from '../../../propagation/trail.ts';
import { Links, type Link, type Literal } from '../rules/link.ts';
import type { Monotone } from '../rules/monotone.ts';
import { Sum, type Term } from '../rules/sum.ts';
import type { Steps } from './steps.ts';

/** Of so many literals no two hold by a clause for each pair. */
const FEW = 6;
/** Clauses that are written down at a time. */
const CLAUSES = 1000;
/** Links in a rule: fewer where they are many would cost passes, more a single long one. */
const LINKS = 16_384;
/** Rules that are made at a time, in number and by what they watch. */
const RULES = 64;
const WATCHES = 2_000;

/** What holds always where it is null. */
export type Condition = Literal | null;

export const atLeast = (x: number, v: number): Literal => ({ b: lowerOf(x), v });
export const atMost = (x: number, v: number): Literal => ({ b: upperOf(x), v: -v });
export const not = ({ b, v }: Literal): Literal => ({ b: b ^ 1, v: 1 - v });
export const variableOf = ({ b }: Literal): number => b >> 1;

const same = (one: Condition, other: Condition): boolean =>
  one === other || (one !== null && other !== null && one.b === other.b && one.v === other.v);

/** One of several things, each with its worth, of which at least one is so. */
export interface Worth {
  readonly when: Condition;
  readonly value: number;
}

/** A network that is being written down: variables, clauses, links and rules. */
export class Draft {
  /** Start and finish of work that is absent: beyond the horizon. */
  readonly absent: number;
  private readonly root: number[] = [];
  /** Clauses end to end: size, then bound and value of each literal. */
  private readonly clauses: number[] = [];
  private readonly links: Link[] = [];
  private readonly rules: MakePropagator[] = [];
  /** Nothing can hold together. */
  contradictory = false;

  constructor(horizon: number) {
    this.absent = horizon + 1;
  }

  get variables(): number {
    return this.root.length / 2;
  }

  variable(low: number, high: number): number {
    if (low > high) {
      this.contradictory = true;
      return this.variable(low, low);
    }
    this.root.push(low, -high);
    return this.root.length / 2 - 1;
  }

  lowest(x: number): number {
    return this.root[lowerOf(x)];
  }

  highest(x: number): number {
    return -this.root[upperOf(x)];
  }

  boolean(): Literal {
    return atLeast(this.variable(0, 1), 1);
  }

  /** One of them holds. Null among them: nothing is asked. */
  clause(...literals: readonly Condition[]): void {
    if (literals.includes(null)) return;
    if (literals.length === 0) {
      this.contradictory = true;
      return;
    }
    this.clauses.push(literals.length);
    for (const literal of literals) if (literal !== null) this.clauses.push(literal.b, literal.v);
  }

  /** Where all of `given` hold, so does one of the others. */
  implies(given: readonly Condition[], ...literals: readonly (Condition | false)[]): void {
    const possible = literals.filter((one) => one !== false);
    this.clause(...given.flatMap((one) => (one === null ? [] : [not(one)])), ...possible);
  }

  /** `to >= fn(from)` where all of `when` hold; of those that are not null two at most. */
  link(from: number, to: number, fn: Monotone, ...when: readonly Condition[]): void {
    // It holds whatever the two are, and bounds only rise from here on.
    if (this.highest(from) < this.absent && fn.at(this.highest(from)) <= this.lowest(to)) return;
    const own: Literal[] = [];
    for (const one of when)
      if (one !== null && !own.some((other) => same(one, other))) own.push(one);
    this.links.push({ from, to, fn, when: own });
  }

  rule(make: MakePropagator): void {
    this.rules.push(make);
  }

  /** The terms together are at most `total`. */
  sum(terms: readonly Term[], total: number): void {
    this.rule((trail, reason) => new Sum(trail, reason, terms, total));
  }

  /** A literal that holds where one of them does; null where that is always. */
  either(literals: readonly Condition[]): Condition {
    const own: Literal[] = [];
    for (const literal of literals) {
      if (literal === null) return null;
      own.push(literal);
    }
    if (own.length === 1) return own[0];
    const any = this.boolean();
    for (const one of own) this.implies([one], any);
    this.implies([any], ...own);
    return any;
  }

  /** Not two of them; where they are many, by a variable for the number of the one that holds. */
  atMostOne(literals: readonly Literal[]): void {
    if (literals.length > FEW) {
      const which = this.variable(0, literals.length - 1);
      literals.forEach((one, k) => {
        this.clause(not(one), atLeast(which, k));
        this.clause(not(one), atMost(which, k));
      });
      return;
    }
    literals.forEach((one, i) => {
      for (const other of literals.slice(i + 1)) this.clause(not(one), not(other));
    });
  }

  /**
   * A variable that is no less than the worth of what is so, and where that is still open than
   * the least of what may be. `given`: something is so only then, and without it the variable is 0.
   * `beyond`: how much more others may make of it.
   */
  worth(choices: readonly Worth[], given: Condition, beyond = 0): number {
    const values = [...new Set(choices.map(({ value }) => value))].sort((a, b) => a - b);
    const least = given === null && choices.length > 0 ? values[0] : 0;
    const x = this.variable(least, Math.max(0, values.at(-1) ?? 0) + beyond);
    for (const { when, value } of choices)
      if (value > least) this.implies([when, ...(when === null ? [given] : [])], atLeast(x, value));
    values.forEach((value) => {
      if (value <= least) return;
      const cheaper = choices.filter((one) => one.value < value).map(({ when }) => when);
      this.implies([given], ...cheaper, atLeast(x, value));
    });
    return x;
  }

  /** The network of all that was written down. */
  *network(): Steps<Network> {
    const { absent, links } = this;
    const rules: MakePropagator[] = [...this.rules];
    for (let from = 0; from < links.length; from += LINKS) {
      const some = links.slice(from, from + LINKS);
      rules.unshift((trail, reason) => new Links(trail, reason, some, absent));
    }
    // Nothing can hold: said by a clause, so that whoever searches finds out in the usual way.
    const x = this.variable(0, 0);
    const never = new Literals();
    never.add(lowerOf(x), 1);
    const root = Int32Array.from(this.root);
    const refuted = (): Network =>
      new Network({ root, arcs: [], clauses: [never], propagators: [] });
    if (this.contradictory) return refuted();
    yield;
    const trail = new Trail(root);
    const propagators: Propagator[] = [];
    let made = 0;
    let watches = 0;
    for (const [k, make] of rules.entries()) {
      const rule = make(trail, codeOf(k));
      propagators.push(rule);
      made += 1;
      watches += rule.watches.length;
      if (made < RULES && watches < WATCHES) continue;
      yield;
      made = 0;
      watches = 0;
    }
    yield;
    const network = new Network({ root, arcs: [], propagators: [] }, { trail, propagators });
    yield;
    return (yield* this.requireAll(network)) ? network : refuted();
  }

  private *requireAll(network: Network): Steps<boolean> {
    const { clauses } = this;
    const scratch = new Literals();
    for (let at = 0, k = 0; at < clauses.length; k += 1) {
      if (k % CLAUSES === 0) yield;
      const end = at + 1 + 2 * clauses[at];
      scratch.clear();
      for (let q = at + 1; q < end; q += 2) scratch.add(clauses[q], clauses[q + 1]);
      if (!network.require(scratch)) return false;
      at = end;
    }
    return true;
  }
}
