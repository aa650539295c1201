import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { beyond } from '../../oracle/data/ranks.ts';

/** The first two ranks as one number, the first before all. */
export const worthOf = (problem: Problem, values: readonly number[]): number =>
  beyond(problem) * values[0] + values[1];

/** What is compared: the makespan of a benchmark file, which has neither dues nor weights, or the ranks. */
export const valueOf = (problem: Problem, plan: Plan): number => worthOf(problem, plan.values);
