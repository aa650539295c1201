import type { Random } from '#kernel/random.ts';
import { Literals, lowerOf, upperOf } from '../literal.ts';
import { Network, type NetworkInput } from '../network.ts';
import { ARC, CLAUSE, DECISION, PROPAGATOR } from '../trail.ts';

/**
 * Propagators against their meaning, by enumeration: a network over small domains, and every
 * assignment (a value for each variable) that keeps what the propagators stand for.
 */
export interface Small {
  readonly input: NetworkInput;
  readonly solutions: readonly (readonly number[])[];
  /** Whether the propagators let nothing else through once every variable is fixed. */
  readonly complete: boolean;
}

/** What was exercised, to be added up over many draws. */
export interface Tally {
  conflicts: number;
  fixed: number;
  /** Values removed that had to be explained, by kind of reason. */
  arcs: number;
  clauses: number;
  propagators: number;
}

export const noTally = (): Tally => ({
  conflicts: 0,
  fixed: 0,
  arcs: 0,
  clauses: 0,
  propagators: 0,
});

/** Every assignment with variable x in low..high of `domains[x]`. */
export function assignments(
  domains: readonly (readonly [low: number, high: number])[],
): number[][] {
  let all: number[][] = [[]];
  for (const [low, high] of domains) {
    const values = Array.from({ length: high - low + 1 }, (_, k) => low + k);
    all = all.flatMap((part) => values.map((value) => [...part, value]));
  }
  return all;
}

/** Two bounds a variable. */
export function rootOf(domains: readonly (readonly [low: number, high: number])[]): Int32Array {
  return Int32Array.from(domains.flatMap(([low, high]) => [low, -high]));
}

const holds = (values: readonly number[], b: number, v: number): boolean =>
  ((b & 1) === 0 ? values[b >> 1] : -values[b >> 1]) >= v;

function satisfies(values: readonly number[], literals: Literals): boolean {
  for (let k = 0; k < literals.size; k++)
    if (!holds(values, literals.bounds[k], literals.values[k])) return false;
  return true;
}

const show = (literals: Literals): string =>
  Array.from(
    literals.bounds.subarray(0, literals.size),
    (b, k) => `${b}>=${literals.values[k]}`,
  ).join(' ');

/**
 * Decides at random until a conflict or until all is fixed, then takes everything back entry by
 * entry. Throws, with `seed` in the message, where a bound excludes a solution that the decisions
 * allow, a conflict or an explanation (for a value drawn among those that may be asked) is not
 * true in the state that it speaks of or holds in a solution that contradicts it, or, for a
 * complete input, where all is fixed to what is no solution. Several dives over one network, so
 * that what a propagator keeps from run to run is tried as well.
 */
export function examine(small: Small, rng: Random, seed: string, tally: Tally): void {
  // Once on a level without decision, so that what holds at the root has to be explained as well.
  const first = new Examination(small, rng, seed, tally);
  first.openLevel();
  first.dive();
  const others = new Examination(small, rng, seed, tally);
  if (others.closeRoot()) for (let k = 0; k < 3; k++) others.dive();
}

class Examination {
  private readonly small: Small;
  private readonly rng: Random;
  private readonly seed: string;
  private readonly tally: Tally;
  private readonly network: Network;
  private readonly reason = new Literals();
  /** The solutions that all decisions so far allow. */
  private left: readonly (readonly number[])[];

  constructor(small: Small, rng: Random, seed: string, tally: Tally) {
    this.small = small;
    this.rng = rng;
    this.seed = seed;
    this.tally = tally;
    this.network = new Network(small.input);
    this.left = small.solutions;
  }

  openLevel(): void {
    this.network.trail.open();
  }

  /** False if the root has no solution, which must be so. */
  closeRoot(): boolean {
    const consistent = this.network.propagate();
    if (!consistent && this.left.length > 0) this.fail('the root is said to have no solution');
    return consistent;
  }

  dive(): void {
    const { network, rng, tally, small } = this;
    const { trail } = network;
    for (;;) {
      if (!network.propagate()) {
        tally.conflicts++;
        this.expectTrue(network.conflict, 'a conflict');
        if (small.solutions.some((values) => satisfies(values, network.conflict)))
          this.fail(`the conflict ${show(network.conflict)} holds in a solution`);
        break;
      }
      this.expectNothingLost();
      const open = Array.from(trail.latest, (_, x) => x).filter(
        (x) => 2 * x < trail.bound.length && trail.bound[lowerOf(x)] < -trail.bound[upperOf(x)],
      );
      if (open.length === 0) {
        this.expectSolution();
        break;
      }
      if (trail.level > 1 && rng.below(6) === 0) this.takeBack(trail.levelStart[trail.level]);
      else this.decide(open[rng.below(open.length)]);
    }
    this.takeBack(0);
  }

  private decide(x: number): void {
    const { bound } = this.network.trail;
    const low = bound[lowerOf(x)];
    const value = low + this.rng.below(-bound[upperOf(x)] - low);
    const [b, v] = this.rng.below(2) === 0 ? [upperOf(x), -value] : [lowerOf(x), value + 1];
    this.network.decide(b, v);
    this.left = this.left.filter((values) => holds(values, b, v));
  }

  private takeBack(size: number): void {
    const { network, rng, tally, reason, small } = this;
    const { trail } = network;
    while (trail.size > size) {
      const p = trail.size - 1;
      const b = trail.entryBound[p];
      const v = trail.bound[b] - rng.below(trail.bound[b] - trail.entryOld[p]);
      network.pop();
      const kind = trail.entryReason[p] & 3;
      if (kind === DECISION) continue;
      if (kind === ARC) tally.arcs++;
      if (kind === CLAUSE) tally.clauses++;
      if (kind === PROPAGATOR) tally.propagators++;
      reason.clear();
      network.explain(p, v, reason);
      this.expectTrue(reason, `the reason of ${b}>=${v}`);
      for (const values of small.solutions) {
        if (satisfies(values, reason) && !holds(values, b, v))
          this.fail(`${b}>=${v} does not follow from ${show(reason)}: ${values.join(' ')}`);
      }
    }
    let level = 0;
    while (level < trail.level && trail.levelStart[level + 1] < size) level++;
    network.settle(level);
    this.left = small.solutions.filter((values) => this.keepsDecisions(values));
  }

  private keepsDecisions(values: readonly number[]): boolean {
    const { trail } = this.network;
    for (let p = 0; p < trail.size; p++) {
      if (trail.entryReason[p] !== DECISION) continue;
      const b = trail.entryBound[p];
      if (!holds(values, b, this.valueOf(p))) return false;
    }
    return true;
  }

  /** The value to which entry `p` raised its bound. */
  private valueOf(p: number): number {
    const { trail } = this.network;
    const b = trail.entryBound[p];
    let value = trail.bound[b];
    for (let q = trail.latest[b]; q > p; q = trail.entryPrevious[q]) value = trail.entryOld[q];
    return value;
  }

  private expectNothingLost(): void {
    const { bound } = this.network.trail;
    for (const values of this.left) {
      values.forEach((value, x) => {
        if (value < bound[lowerOf(x)] || value > -bound[upperOf(x)])
          this.fail(`variable ${x} can no longer be ${value}, as it is in ${values.join(' ')}`);
      });
    }
  }

  private expectSolution(): void {
    this.tally.fixed++;
    if (this.small.complete && this.left.length === 0) {
      const { bound } = this.network.trail;
      const values = bound.filter((_, b) => (b & 1) === 0);
      this.fail(`all is fixed, but ${values.join(' ')} is no solution`);
    }
  }

  private expectTrue(literals: Literals, what: string): void {
    const { bound } = this.network.trail;
    for (let k = 0; k < literals.size; k++) {
      if (bound[literals.bounds[k]] < literals.values[k])
        this.fail(`${what} has ${literals.bounds[k]}>=${literals.values[k]}, which is not so`);
    }
  }

  private fail(message: string): never {
    throw new Error(`${this.seed}: ${message}`);
  }
}
