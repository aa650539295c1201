import type { Frame } from '../../compile/frame/time.ts';
import type { Task } from '../../workload/workload.ts';
import { spanOf, type Reading } from './reading.ts';
import { timeOf } from './time-of.ts';

/** One task on a part, done, under way or planned; minutes. */
export interface PastWork {
  readonly task: Task;
  readonly start: number;
  readonly finish: number;
}

/** What was begun on a task's part before a minute, the task itself left out, by its finish. */
export type WorkBefore = (task: Task, minute: number) => readonly PastWork[];

/** `of` gives what there is on a part, in any order; each part is asked about once. */
function workBefore(of: (partId: string) => readonly PastWork[]): WorkBefore {
  const byPart = new Map<string, readonly PastWork[]>();
  return ({ id, partId }, minute) => {
    let works = byPart.get(partId);
    if (works === undefined) {
      works = of(partId).toSorted((a, b) => a.finish - b.finish);
      byPart.set(partId, works);
    }
    return works.filter(({ task, start }) => task.id !== id && start < minute);
  };
}

/** As it was, and as the plan has it. */
export function plannedBefore(reading: Reading): WorkBefore {
  const works = reading.plan.placements.flatMap((placement) => {
    const task = reading.rows.tasks.get(reading.map.tasks[placement.activity]);
    return task === undefined ? [] : [{ task, ...spanOf(reading, task, placement) }];
  });
  const byPart = Map.groupBy(works, ({ task }) => task.partId);
  return workBefore((partId) => byPart.get(partId) ?? []);
}

/** As it was up to a minute `now`; `on` gives all work of a part. */
export const doneBefore = (
  on: (partId: string) => readonly Task[],
  frame: Frame,
  now: number,
): WorkBefore =>
  workBefore((partId) =>
    on(partId).flatMap((task) => {
      const start = timeOf(task, 'start', frame);
      if (start === null) return [];
      return [{ task, start, finish: timeOf(task, 'finish', frame) ?? now }];
    }),
  );
