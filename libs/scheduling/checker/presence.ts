import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { malformed, type Reading } from './reading.ts';
import type { Violation } from './violation.ts';

function branches(problem: Problem, plan: Plan): Violation[] {
  const found: Violation[] = [];
  if (plan.branches.length !== problem.choices.length)
    found.push({
      kind: 'branch',
      activities: [],
      message: `${plan.branches.length} branches are named for ${problem.choices.length} choices`,
    });
  problem.choices.forEach((choice, c) => {
    if (choice.branches.some((_, b) => b === plan.branches[c])) return;
    found.push({
      kind: 'branch',
      activities: choice.branches.flatMap((branch) => branch.activities),
      message: `choice ${choice.id} has no branch ${plan.branches[c]}`,
      choice: c,
    });
  });
  return found;
}

/** Each present activity exactly once, well formed and in order; nothing else. */
export function presence(reading: Reading): Violation[] {
  const { problem, plan, present } = reading;
  const found = branches(problem, plan);
  const times = problem.activities.map(() => 0);
  let previous = -1;
  for (const placement of plan.placements) {
    const { activity, mode } = placement;
    const wrong = malformed(problem, placement);
    if (wrong !== null)
      found.push({
        kind: 'form',
        activities: activity in problem.activities ? [activity] : [],
        message: `a placement cannot be read: ${wrong}`,
      });
    if (!(activity in problem.activities)) continue;
    const { id, modes } = problem.activities[activity];
    times[activity]++;
    if (activity < previous)
      found.push({ kind: 'form', activities: [activity], message: `${id} is out of order` });
    previous = activity;
    if (!modes.some((_, m) => m === mode))
      found.push({ kind: 'mode', activities: [activity], message: `${id} has no mode ${mode}` });
  }
  times.forEach((count, activity) => {
    const { id } = problem.activities[activity];
    if (count === 0 && present[activity])
      found.push({ kind: 'missing', activities: [activity], message: `${id} is not placed` });
    if (count > 0 && !present[activity])
      found.push({
        kind: 'absent',
        activities: [activity],
        message: `${id} is placed though its branch is not taken`,
      });
    if (count > 1)
      found.push({
        kind: 'duplicate',
        activities: [activity],
        message: `${id} is placed ${count} times`,
      });
  });
  return found;
}
