import { addDays } from '#calendar/local-date.ts';
import type { PlanSheet, SheetTask } from './sheet.ts';

/** One stretch of work of one task on one day, wall time. */
export interface WeekRow {
  readonly date: string;
  readonly from: string;
  readonly to: string;
  readonly taskId: string;
  readonly task: string;
  readonly part: string;
  readonly boat: string;
  readonly spaceId: string;
  readonly space: string;
  readonly people: readonly string[];
  readonly air: SheetTask['air'];
  /** Begun in an earlier stretch. */
  readonly continued: boolean;
  /** Ends in a later stretch. */
  readonly continues: boolean;
}

export interface WeekGroup {
  readonly id: string;
  readonly name: string;
  readonly rows: readonly WeekRow[];
}

export type WeekBy = 'builder' | 'space' | 'boat';

/** Seven local days from `weekStart` on. */
export interface Week {
  readonly weekStart: string;
  /** The last of them. */
  readonly weekEnd: string;
  readonly by: WeekBy;
  readonly groups: readonly WeekGroup[];
}

function rowsOf(task: SheetTask): WeekRow[] {
  const last = task.segments.length - 1;
  return task.segments.map(({ start, finish }, k) => ({
    date: start.local.slice(0, 10),
    from: start.local.slice(11),
    to: finish.local.slice(11),
    taskId: task.id,
    task: task.name,
    part: task.part,
    boat: task.boat,
    spaceId: task.spaceId,
    space: task.space,
    people: task.crew.map(({ name }) => name),
    air: task.air,
    continued: k > 0,
    continues: k < last,
  }));
}

function keysOf(task: SheetTask, by: WeekBy): { id: string; name: string }[] {
  if (by === 'builder') return task.crew.map(({ personId, name }) => ({ id: personId, name }));
  return [
    by === 'space' ? { id: task.spaceId, name: task.space } : { id: task.boatId, name: task.boat },
  ];
}

/** What is done in a week, by builder, space or boat; groups by name, rows by time. */
export function weekOf(
  sheet: PlanSheet,
  { weekStart, by }: { weekStart: string; by: WeekBy },
): Week {
  const end = addDays(weekStart, 7);
  const groups = new Map<string, { name: string; rows: WeekRow[] }>();
  for (const task of sheet.tasks) {
    const rows = rowsOf(task).filter(({ date }) => date >= weekStart && date < end);
    if (rows.length === 0) continue;
    for (const { id, name } of keysOf(task, by)) {
      const group = groups.get(id) ?? { name, rows: [] };
      group.rows.push(...rows);
      groups.set(id, group);
    }
  }
  const when = (row: WeekRow): string => `${row.date}T${row.from}`;
  return {
    weekStart,
    weekEnd: addDays(weekStart, 6),
    by,
    groups: [...groups]
      .map(([id, { name, rows }]) => ({
        id,
        name,
        rows: rows.sort((a, b) => (when(a) < when(b) ? -1 : 1)),
      }))
      .sort((a, b) => (a.name < b.name ? -1 : 1)),
  };
}
