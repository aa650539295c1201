import type { Schema } from '../../api/client.ts';

type Change = Schema<'TaskDifference'>;

export interface DayOfChanges {
  /** By the yard's calendar, `2026-11-26`. */
  readonly date: string;
  readonly tasks: readonly Change[];
}

/** What changes day by day, by where a task is put; one that is gone, by where it was. */
export function byDay(tasks: readonly Change[]): DayOfChanges[] {
  const days = new Map<string, Change[]>();
  for (const task of tasks) {
    const date = (task.to ?? task.from)?.local.slice(0, 10) ?? '';
    const known = days.get(date) ?? [];
    known.push(task);
    days.set(date, known);
  }
  return [...days]
    .map(([date, list]) => ({ date, tasks: list }))
    .sort((a, b) => (a.date < b.date ? -1 : 1));
}
