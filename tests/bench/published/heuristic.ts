import { check } from '#scheduling/checker/check.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { toPureModel, type PureModel } from '#scheduling/search/exact/pure.ts';
import { improve } from '#scheduling/search/list/improve.ts';

/** The best of so many generation passes. */
export interface Alone {
  readonly makespan: number;
  /** Passes done: fewer than allowed where the bound was reached. */
  readonly schedules: number;
  /** Of processor time. */
  readonly milliseconds: number;
  /** What the checker has against the plan. */
  readonly complaint: string | null;
}

function planOf(problem: Problem, { unit, duration }: PureModel, starts: Int32Array): Plan {
  const placements = Array.from(starts, (step, activity) => {
    const start = step * unit;
    const finish = start + duration[activity] * unit;
    return {
      activity,
      mode: 0,
      start,
      finish,
      segments: finish > start ? [{ start, end: finish }] : [],
      crew: [],
      overtime: false,
      slot: null,
    };
  });
  const counted = placements.filter(({ activity }) => problem.activities[activity].refit !== null);
  const makespan = Math.max(0, ...counted.map(({ finish }) => finish));
  return {
    placements,
    branches: [],
    finishes: [makespan],
    values: [0, makespan * problem.refits[0].weight, 0, 0],
  };
}

/** The heuristic by itself: no learning, every generation pass counted. */
export function alone(problem: Problem, schedules: number): Alone | null {
  const model = toPureModel(problem);
  const from = process.cpuUsage();
  const found = improve(model, 1, schedules);
  const { user, system } = process.cpuUsage(from);
  if (found === null) return null;
  const plan = planOf(problem, model, found.starts);
  return {
    makespan: plan.finishes[0],
    schedules: found.schedules,
    milliseconds: (user + system) / 1000,
    complaint: check(problem, plan).at(0)?.message ?? null,
  };
}
