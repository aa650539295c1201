import type { Problem, Published, Refit } from '../problem.ts';
import { distinct, type Report } from './report.ts';

export function refit(to: Report, path: string, one: Refit): void {
  const { release, due, handovers } = one;
  to.whole(`${path}.weight`, one.weight, 0);
  handovers.forEach((at, i) => {
    const own = `${path}.handovers[${i}]`;
    if (!to.whole(own, at) || i === 0 || at > handovers[i - 1]) return;
    to.add('input.field', own, 'It is not after the handover before', at, 'Sort the handovers.');
  });
  const whole = to.whole(`${path}.release`, release);
  if (due === null || !to.whole(`${path}.due`, due) || !whole || due >= release) return;
  const message = `It is due at ${due}, before its release at ${release}`;
  to.add('yard.promise', `${path}.due`, message, due);
}

/** What people have been told, each task once. */
export function published(to: Report, { tolerance, tasks }: Published, problem: Problem): void {
  to.whole('published.tolerance', tolerance, 0);
  tasks.forEach(({ activity, start, builders, weight }, i) => {
    const path = `published.tasks[${i}]`;
    to.index(`${path}.activity`, activity, problem.activities.length, 'activity');
    if (tasks.findIndex((other) => other.activity === activity) < i)
      to.add('yard.duplicate', `${path}.activity`, 'The activity is published twice', activity);
    to.whole(`${path}.start`, start);
    to.whole(`${path}.weight`, weight, 0);
    distinct(to, `${path}.builders`, builders, problem.builders.length, 'builder');
  });
}
