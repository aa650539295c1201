import type { Reading } from './reading/reading.ts';
import type { SheetMove } from './sheet.ts';

const sameSet = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((one) => b.includes(one));

/** Tasks that start more than the tolerance away, have other people, or are not done any more. */
export function movedTasks({ problem, map, placed, rows, at }: Reading): SheetMove[] {
  const { published } = problem;
  if (published === null) return [];
  const names = (builders: readonly number[]): string[] =>
    builders.map((builder) => rows.personName(map.people[builder]));
  return published.tasks.flatMap(({ activity, start, builders }): SheetMove[] => {
    const placement = placed[activity];
    const taskId = map.tasks[activity];
    const told = at.when(start);
    if (placement === undefined)
      return [{ taskId, published: told, planned: null, moved: true, people: null }];
    const moved = Math.abs(placement.start - start) > published.tolerance;
    const now = placement.crew.map(({ builder }) => builder);
    if (!moved && sameSet(builders, now)) return [];
    const people = sameSet(builders, now) ? null : { before: names(builders), now: names(now) };
    return [{ taskId, published: told, planned: at.when(placement.start), moved, people }];
  });
}
