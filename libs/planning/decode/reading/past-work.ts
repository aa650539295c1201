import type { Task } from '../../workload/workload.ts';
import { timeOf, type Place } from './place.ts';
import { spanOf, type Reading } from './reading.ts';

/** One task on a part, done, under way or planned; minutes. */
export interface PastWork {
  readonly task: Task;
  readonly start: number;
  readonly finish: number;
}

/** What was begun on a task's part before a minute, the task itself left out, by its finish. */
export type WorkBefore = (task: Task, minute: number) => readonly PastWork[];

function workBefore(list: readonly PastWork[]): WorkBefore {
  const byPart = new Map<string, PastWork[]>();
  for (const work of list) {
    const known = byPart.get(work.task.partId);
    if (known === undefined) byPart.set(work.task.partId, [work]);
    else known.push(work);
  }
  for (const works of byPart.values()) works.sort((a, b) => a.finish - b.finish);
  return ({ id, partId }, minute) =>
    (byPart.get(partId) ?? []).filter(({ task, start }) => task.id !== id && start < minute);
}

/** As it was, and as the plan has it. */
export const plannedBefore = (reading: Reading): WorkBefore =>
  workBefore(
    reading.plan.placements.flatMap((placement) => {
      const task = reading.rows.tasks.get(reading.map.tasks[placement.activity]);
      return task === undefined ? [] : [{ task, ...spanOf(reading, task, placement) }];
    }),
  );

/** As it was up to now. */
export const doneBefore = (place: Place): WorkBefore =>
  workBefore(
    place.workload.tasks.flatMap((task) => {
      const start = timeOf(task, 'start', place.frame);
      if (start === null) return [];
      return [{ task, start, finish: timeOf(task, 'finish', place.frame) ?? place.now }];
    }),
  );
