import type { Problem } from '../model/problem.ts';
import type { Reading } from './reading.ts';
import type { Violation } from './violation.ts';

/** Values of the ranks from the refits' finishes: [weighted lateness, weighted finishes]. */
export function ranks(problem: Problem, finishes: readonly number[]): [number, number] {
  const values: [number, number] = [0, 0];
  problem.refits.forEach(({ due, weight }, r) => {
    values[0] += due === null ? 0 : weight * Math.max(0, finishes[r] - due);
    values[1] += weight * finishes[r];
  });
  return values;
}

/** What the plan says of itself, recomputed from its placements. */
export function values(reading: Reading): Violation[] {
  const { problem, plan, work } = reading;
  const found: Violation[] = [];
  const finishes = problem.refits.map(() => 0);
  for (const { placement, activity } of work)
    if (activity.refit !== null)
      finishes[activity.refit] = Math.max(finishes[activity.refit], placement.finish);
  if (plan.finishes.length !== finishes.length)
    found.push({
      kind: 'values',
      activities: [],
      message: `${plan.finishes.length} finishes are given for ${finishes.length} refits`,
    });
  finishes.forEach((finish, refit) => {
    if (plan.finishes[refit] === finish) return;
    found.push({
      kind: 'values',
      activities: [],
      refit,
      message: `${problem.refits[refit].id} finishes at ${finish}, not at ${plan.finishes[refit]}`,
    });
  });
  ranks(problem, finishes).forEach((value, rank) => {
    if (plan.values[rank] === value) return;
    found.push({
      kind: 'values',
      activities: [],
      message: `rank ${rank + 1} is worth ${value}, not ${plan.values[rank]}`,
    });
  });
  return found;
}
