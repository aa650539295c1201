import { inCents } from '#planning/compile/frame/money.ts';
import type { Plan, ProvedBound, SearchState } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';

/** The columns of a run that say how far its search has come. */
export interface Progress {
  readonly iterationsDone: number;
  readonly bestLateness: number | null;
  readonly bestFinishes: number | null;
  readonly bestMoney: number | null;
  readonly bestDisturbance: number | null;
  readonly boundLateness: number;
  readonly boundFinishes: number;
  readonly boundMoney: number;
  readonly boundDisturbance: number;
  /** Of the first two ranks, the one that is farther from its bound, as `RankBound.gap`. */
  readonly gap: number | null;
  readonly bestFinishAt: Date | null;
}

const minuteMs = 60_000;

export function progressOf(problem: Problem, { plan, bounds, iterations }: SearchState): Progress {
  return {
    iterationsDone: iterations,
    bestLateness: plan && plan.values[0],
    bestFinishes: plan && plan.values[1],
    bestMoney: plan && inCents(plan.values[2]),
    bestDisturbance: plan && plan.values[3],
    boundLateness: bounds[0].bound,
    boundFinishes: bounds[1].bound,
    boundMoney: inCents(bounds[2].bound),
    boundDisturbance: bounds[3].bound,
    gap: plan && gapOf(problem, plan, bounds),
    bestFinishAt: plan && lastFinish(problem, plan),
  };
}

/** Whether a follower would see a difference that matters; counting on does not. */
export function differs(a: Progress | null, b: Progress): boolean {
  return (
    a?.bestLateness !== b.bestLateness ||
    a.bestFinishes !== b.bestFinishes ||
    a.bestMoney !== b.bestMoney ||
    a.bestDisturbance !== b.bestDisturbance ||
    a.boundLateness !== b.boundLateness ||
    a.boundFinishes !== b.boundFinishes ||
    a.boundMoney !== b.boundMoney ||
    a.boundDisturbance !== b.boundDisturbance
  );
}

function gapOf(problem: Problem, plan: Plan, bounds: readonly ProvedBound[]): number {
  const spans = problem.refits.reduce(
    (sum, { weight, release }, r) =>
      sum + weight * Math.max(0, plan.finishes[r] - Math.max(problem.now, release)),
    0,
  );
  const minutes = Math.max(0, plan.values[0] - bounds[0].bound, plan.values[1] - bounds[1].bound);
  return minutes / Math.max(1, spans);
}

function lastFinish({ origin }: Problem, { finishes }: Plan): Date | null {
  if (origin === null || finishes.length === 0) return null;
  return new Date(new Date(origin).getTime() + Math.max(...finishes) * minuteMs);
}
