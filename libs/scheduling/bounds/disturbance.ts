import type { Problem, PublishedTask } from '../model/problem.ts';
import type { Analysis } from './critical-path.ts';
import { isCertain, ruledOut } from './domains.ts';

const same = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((one) => b.includes(one));

/** Whether some mode that the activity may have has exactly these builders for a crew. */
function mayBe({ root }: Analysis, a: number, builders: readonly number[]): boolean {
  const { problem, compiled, modes } = root;
  const { fixed } = problem.activities[a];
  if (fixed?.kind === 'frozen') return same(fixed.builders ?? [], builders);
  return modes[a].some((mode) => {
    const { crews, complete } = compiled.activities[a].modes[mode];
    if (crews === null) return builders.length === 0;
    return !complete || crews.some((crew) => same(crew.builders, builders));
  });
}

/** What a published task adds at least if it is present. */
function ifPresent(analysis: Analysis, tolerance: number, task: PublishedTask): number {
  const { domains } = analysis;
  const { activity: a, start, builders, weight } = task;
  const moved = domains.startFrom[a] > start + tolerance || domains.startTo[a] < start - tolerance;
  return (moved ? weight : 0) + (mayBe(analysis, a, builders) ? 0 : weight);
}

/**
 * A lower bound of rank 4: published tasks that cannot start near enough to what people have
 * been told, or not with those who have been told.
 */
export function leastDisturbance(analysis: Analysis): number {
  const { root, assumed } = analysis;
  const { published }: Problem = root.problem;
  if (published === null) return 0;
  return published.tasks.reduce((sum, task) => {
    if (ruledOut(root, assumed, task.activity)) return sum + task.weight;
    const present = ifPresent(analysis, published.tolerance, task);
    return (
      sum + (isCertain(root, assumed, task.activity) ? present : Math.min(present, task.weight))
    );
  }, 0);
}
