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
      constraint: null,
      message: `${plan.branches.length} branches are named for ${problem.choices.length} choices`,
    });
  problem.choices.forEach((choice, c) => {
    if (choice.branches.some((_, b) => b === plan.branches[c])) return;
    found.push({
      kind: 'branch',
      activities: choice.branches.flatMap((branch) => branch.activities),
      constraint: { kind: 'choice', choice: c },
      message: `choice ${choice.id} has no branch ${plan.branches[c]}`,
    });
  });
  return found;
}

/** How often each activity is placed, and what is wrong with the list as such. */
function listed({ problem, plan }: Reading): { times: number[]; found: Violation[] } {
  const found: Violation[] = [];
  const times = problem.activities.map(() => 0);
  let previous = -1;
  for (const placement of plan.placements) {
    const { activity, mode } = placement;
    const known = activity in problem.activities;
    const complain = (kind: Violation['kind'], message: string): void => {
      found.push({ kind, activities: known ? [activity] : [], constraint: null, message });
    };
    const wrong = malformed(problem, placement);
    if (wrong !== null) complain('form', `a placement cannot be read: ${wrong}`);
    if (!known) continue;
    const { id, modes } = problem.activities[activity];
    times[activity]++;
    if (activity < previous) complain('form', `${id} is out of order`);
    previous = activity;
    if (!modes.some((_, m) => m === mode)) complain('mode', `${id} has no mode ${mode}`);
  }
  return { times, found };
}

/** Each present activity exactly once, well formed and in order; nothing else. */
export function presence(reading: Reading): Violation[] {
  const { problem, plan, present } = reading;
  const { times, found } = listed(reading);
  times.forEach((count, activity) => {
    const { id } = problem.activities[activity];
    const choice = problem.choices.findIndex((one) =>
      one.branches.some((branch) => branch.activities.includes(activity)),
    );
    const complain = (kind: Violation['kind'], message: string): void => {
      const constraint = choice < 0 ? null : ({ kind: 'choice', choice } as const);
      found.push({ kind, activities: [activity], constraint, message });
    };
    if (count === 0 && present[activity]) complain('missing', `${id} is not placed`);
    if (count > 0 && !present[activity])
      complain('absent', `${id} is placed though its branch is not taken`);
    if (count > 1) complain('duplicate', `${id} is placed ${count} times`);
  });
  return [...branches(problem, plan), ...found];
}
