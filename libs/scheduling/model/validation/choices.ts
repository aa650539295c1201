import type { Problem } from '../problem.ts';
import type { Report } from './report.ts';

/** Branches are not empty lists of choices, and each activity and lag is in one at most. */
export function choices(to: Report, problem: Problem): void {
  const owner = { activity: new Map<number, string>(), lag: new Map<number, string>() };
  const claim = (what: 'activity' | 'lag', path: string, index: number, length: number): void => {
    if (!to.index(path, index, length, what)) return;
    const first = owner[what].get(index);
    if (first === undefined) owner[what].set(index, path);
    else
      to.add(
        'yard.duplicate',
        path,
        `The ${what} is in ${first} already`,
        index,
        `Leave the ${what} in one branch.`,
      );
  };
  problem.choices.forEach((choice, c) => {
    const path = `choices[${c}].branches`;
    if (choice.branches.length === 0)
      to.add('input.field', path, 'There is nothing to choose', [], 'Give a branch at least.');
    const happened = choice.branches.map((branch, b) => {
      const own = `${path}[${b}]`;
      branch.activities.forEach((a, i) => {
        claim('activity', `${own}.activities[${i}]`, a, problem.activities.length);
      });
      branch.lags.forEach((lag, i) => {
        claim('lag', `${own}.lags[${i}]`, lag, problem.lags.length);
      });
      return branch.activities.some((a) => problem.activities.at(a)?.fixed?.kind === 'frozen');
    });
    if (happened.filter(Boolean).length > 1)
      to.add(
        'input.field',
        path,
        'Work of two branches has happened',
        null,
        'Keep the frozen work of one branch, or take it out of the choice.',
      );
  });
}
