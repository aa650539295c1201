import type { Part } from '#scheduling/model/problem.ts';
import { isOver } from '../../workload/standing.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Places } from './places.ts';

/** Done tasks in the order in which they were over. */
function history(tasks: readonly Task[]): Task[] {
  return tasks
    .filter(isOver)
    .map((task) => ({ task, over: Date.parse(task.finishedAt ?? task.startedAt ?? '') || 0 }))
    .sort((a, b) => a.over - b.over)
    .map(({ task }) => task);
}

/** Where parts have been taken by work that is done. */
export function takenTo(tasks: readonly Task[]): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const { parts, movesTo } of history(tasks)) {
    if (movesTo !== null) for (const part of parts) found.set(part, movesTo);
  }
  return found;
}

/** The yard's parts, each where it is after what is done. */
export function partsOf(
  yard: Yard,
  { spaceIndex }: Places,
  moved: ReadonlyMap<string, string>,
): Part[] {
  return yard.boats
    .flatMap(({ refits }) => refits.flatMap(({ parts }) => parts))
    .map(({ id, space }) => ({
      id,
      space: spaceIndex.get(moved.get(id) ?? space) ?? -1,
      source: `part:${id}`,
    }));
}

/** Barriers as work that is done has left them. */
export function barriersAsLeft<T extends { readonly id: string; readonly closed: boolean }>(
  barriers: readonly T[],
  tasks: readonly Task[],
): T[] {
  const closed = new Map(barriers.map((barrier) => [barrier.id, barrier.closed]));
  for (const { barrier } of history(tasks)) {
    if (barrier !== null) closed.set(barrier.barrier, barrier.closes);
  }
  return barriers.map((barrier) => ({
    ...barrier,
    closed: closed.get(barrier.id) ?? barrier.closed,
  }));
}
