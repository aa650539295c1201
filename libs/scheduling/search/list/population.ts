import type { Plan, ProvedBound, SearchState } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { toPureModel } from '../exact/pure.ts';
import { Standing } from '../exact/standing.ts';
import type { Search } from '../search.ts';
import { Evolution } from './evolution.ts';
import { schemeOf } from './improve.ts';
import type { Scheme } from './scheme.ts';

/** Generation passes of an iteration. */
const PASSES = 64;
/** Passes of the first evolution; each further one has so many times more, up to the last. */
const FIRST = 4000;
const TIMES = 4;
const MOST = 4_096_000;

/**
 * Population search for a pure problem (see `isPure`): evolutions one after the other, each from
 * new lists and with a larger budget, and so more slots, than the one before. Half-way the best
 * plan known joins in. An iteration is 64 generation passes. Deterministic in seed and iterations
 * and in what it receives. `optimal` where the plan is as short as the root bound,
 * `infeasible` where the root closure leaves no plan within the horizon.
 */
export function createPopulation(problem: Problem, seed: number, warmStart: Plan | null): Search {
  return new Population(problem, seed, warmStart);
}

class Population implements Search {
  private readonly standing: Standing;
  private readonly seed: number;
  private scheme: Scheme | null = null;
  private evolution: Evolution | null = null;
  private evolutions = 0;
  private budget = FIRST;
  private iterations = 0;
  private isDecided = false;
  /** The best plan has joined this evolution. */
  private hasJoined = false;

  constructor(problem: Problem, seed: number, warmStart: Plan | null) {
    this.standing = new Standing(toPureModel(problem));
    this.seed = seed;
    if (warmStart !== null) this.standing.offerPlan(warmStart);
  }

  step(iterations: number): SearchState {
    for (let k = 0; k < iterations && !this.isDecided; k++) {
      this.iterations++;
      this.iterate();
    }
    return this.standing.state(this.iterations, this.isDecided);
  }

  receive(plan: Plan | null, bounds: readonly ProvedBound[]): void {
    if (plan !== null && this.standing.offerPlan(plan)) this.hasJoined = false;
    this.standing.raiseTo(bounds);
    this.isDecided ||= this.standing.isProved;
  }

  private iterate(): void {
    const { standing } = this;
    this.scheme ??= schemeOf(standing.model);
    if (this.scheme === null) {
      this.isDecided = true;
      return;
    }
    standing.bound = Math.max(standing.bound, this.scheme.least);
    const evolution = this.current(this.scheme);
    const before = evolution.makespan;
    for (let k = 0; k < PASSES; k++) evolution.advance();
    if (evolution.makespan < before) standing.offer(evolution.starts.slice());
    this.isDecided ||= standing.isProved;
  }

  private current(scheme: Scheme): Evolution {
    if (this.evolution === null || this.evolution.passes >= this.evolution.budget) {
      if (this.evolution !== null) this.budget = Math.min(MOST, this.budget * TIMES);
      this.evolution = new Evolution(scheme, this.seed + 7919 * this.evolutions++, this.budget);
      this.hasJoined = false;
    }
    const { best } = this.standing;
    if (!this.hasJoined && best !== null && this.evolution.passes >= this.evolution.budget / 2) {
      this.evolution.receive(best);
      this.hasJoined = true;
    }
    return this.evolution;
  }
}
