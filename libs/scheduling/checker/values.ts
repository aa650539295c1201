import type { Placement, RankValues } from '../model/plan.ts';
import type { Problem, PublishedTask, Refit } from '../model/problem.ts';
import { money } from './money.ts';
import type { Reading } from './reading.ts';
import type { Violation } from './violation.ts';

/** The finish, or where handovers are given the first that is not before it; after the last, the horizon. */
function handover({ handovers }: Refit, finish: number, horizon: number): number {
  if (handovers.length === 0) return finish;
  return handovers.find((at) => at >= finish) ?? horizon;
}

/** What one published task adds: once if absent, else for being moved and for other people. */
function disturbed(
  task: PublishedTask,
  placement: Placement | undefined,
  tolerance: number,
): number {
  if (!placement) return task.weight;
  const moved = Math.abs(placement.start - task.start) > tolerance;
  const now = placement.crew.map(({ builder }) => builder);
  const same =
    task.builders.every((builder) => now.includes(builder)) &&
    now.every((builder) => task.builders.includes(builder));
  return task.weight * (Number(moved) + Number(!same));
}

/** Values of the ranks: weighted lateness, weighted finishes, money, disturbance. */
export function ranks(
  problem: Problem,
  placements: readonly Placement[],
  finishes: readonly number[],
): RankValues {
  let lateness = 0;
  let finish = 0;
  problem.refits.forEach((refit, r) => {
    const { due, weight } = refit;
    const handed = handover(refit, finishes[r], problem.horizon);
    if (due !== null) lateness += weight * Math.max(0, handed - due);
    finish += weight * finishes[r];
  });
  let disturbance = 0;
  for (const task of problem.published?.tasks ?? []) {
    const placement = placements.find((one) => one.activity === task.activity);
    disturbance += disturbed(task, placement, problem.published?.tolerance ?? 0);
  }
  return [lateness, finish, money(problem, placements), disturbance];
}

/** What the plan says of itself, recomputed from its placements. */
export function values({ problem, plan, work }: Reading): Violation[] {
  const found: Violation[] = [];
  const complain = (message: string): void => {
    found.push({ kind: 'values', activities: [], constraint: null, message });
  };
  const finishes = problem.refits.map(() => 0);
  for (const { placement, activity } of work)
    if (activity.refit !== null)
      finishes[activity.refit] = Math.max(finishes[activity.refit], placement.finish);
  if (plan.finishes.length !== finishes.length)
    complain(`${plan.finishes.length} finishes are given for ${finishes.length} refits`);
  finishes.forEach((finish, refit) => {
    if (plan.finishes[refit] !== finish)
      complain(`${problem.refits[refit].id} finishes at ${finish}, not at ${plan.finishes[refit]}`);
  });
  const placements = work.map(({ placement }) => placement);
  ranks(problem, placements, finishes).forEach((value, rank) => {
    if (plan.values[rank] !== value)
      complain(`rank ${rank + 1} is worth ${value}, not ${plan.values[rank]}`);
  });
  return found;
}
