import type { Plan, ProvedBound, SearchState, SolveStatus } from '../../model/plan.ts';
import { isFeasible, makespanOf, type PureModel } from './pure.ts';

/** The best plan and bound of a search of a pure problem, in the model's steps and as its state. */
export class Standing {
  readonly model: PureModel;
  /** Starts of the best plan, null before there is one. */
  best: Int32Array | null = null;
  makespan = 0;
  /** No plan has a smaller makespan. */
  bound = 0;
  private plan: Plan | null = null;

  constructor(model: PureModel) {
    this.model = model;
  }

  /** Keeps the starts if they are feasible and better than the best so far. */
  offer(starts: Int32Array | null): boolean {
    if (starts === null || !isFeasible(this.model, starts)) return false;
    const makespan = makespanOf(this.model, starts);
    if (this.best !== null && makespan >= this.makespan) return false;
    this.best = starts;
    this.makespan = makespan;
    this.plan = planOf(this.model, starts);
    return true;
  }

  /** Keeps a plan from elsewhere, perhaps of another problem, if it is a better one of this. */
  offerPlan(plan: Plan): boolean {
    return this.offer(startsOf(this.model, plan));
  }

  /** Takes over what others have proved of rank 2, the only one that can be more than zero. */
  raiseTo(bounds: readonly ProvedBound[]): void {
    const { unit, weight } = this.model;
    // All plans keep the caps: the earlier rank is 0 in each.
    const proved = bounds.at(1)?.bound ?? 0;
    this.bound = Math.max(this.bound, Math.ceil(proved / (unit * weight)));
  }

  get isProved(): boolean {
    return this.best !== null && this.bound >= this.makespan;
  }

  /** `decided`: the best plan is an optimal one or, without one, there is none. */
  state(iterations: number, decided: boolean): SearchState {
    const { model, best, makespan } = this;
    const bound = best !== null && (decided || this.bound > makespan) ? makespan : this.bound;
    return {
      status: verdict(decided, best !== null),
      plan: this.plan,
      bounds: boundsOf(bound * model.unit * model.weight),
      iterations,
      done: decided,
    };
  }
}

/** In a pure problem nothing can be late, cost money or disturb. */
const boundsOf = (bound: number): readonly ProvedBound[] =>
  [0, bound, 0, 0].map((value) => ({ bound: value, caps: [], proof: 'search' }));

function verdict(decided: boolean, planned: boolean): SolveStatus {
  if (planned) return decided ? 'optimal' : 'feasible';
  return decided ? 'infeasible' : 'unknown';
}

/** Starts in steps, rounded down to the common divisor; null if some activity is not placed. */
function startsOf(model: PureModel, plan: Plan): Int32Array | null {
  if (plan.placements.length !== model.count) return null;
  return Int32Array.from(plan.placements, (p) => Math.floor(p.start / model.unit));
}

function planOf(model: PureModel, starts: Int32Array): Plan {
  const { unit, duration } = model;
  const finish = makespanOf(model, starts) * unit;
  return {
    placements: Array.from(starts, (step, activity) => {
      const start = step * unit;
      const end = start + duration[activity] * unit;
      const segments = start < end ? [{ start, end }] : [];
      return {
        activity,
        mode: 0,
        start,
        finish: end,
        segments,
        crew: [],
        overtime: false,
        slot: null,
      };
    }),
    branches: [],
    finishes: [finish],
    values: [0, finish * model.weight, 0, 0],
  };
}
