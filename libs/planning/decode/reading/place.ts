import type { Release } from '#scheduling/model/problem.ts';
import type { Films } from '../../compile/films/films.ts';
import type { Frame } from '../../compile/frame/time.ts';
import type { Whereabouts } from '../../compile/films/whereabouts.ts';
import type { Task, Workload } from '../../workload/workload.ts';
import type { Moments } from './moments.ts';
import type { Rows } from './rows.ts';

/** What keeps a task from beginning, and until which minute, where that is known. */
export interface Obstacle {
  readonly why: string;
  readonly until: number | null;
}

/** The yard as it is at `now`; minutes from the yard's `planFrom`. */
export interface Place {
  readonly workload: Workload;
  /** Where parts are, and barriers that are closed, after what is done. */
  readonly moved: ReadonlyMap<string, string>;
  readonly closed: ReadonlySet<string>;
  readonly releases: (task: Task) => readonly Release[];
  readonly rows: Rows;
  readonly films: Films;
  readonly whereabouts: Whereabouts;
  readonly frame: Frame;
  readonly at: Moments;
  readonly now: number;
  readonly horizon: number;
}

/** When begun work really began or was over; null where it has not. */
export function timeOf(task: Task, anchor: 'start' | 'finish', frame: Frame): number | null {
  if (task.state === 'waiting' || (anchor === 'finish' && task.state !== 'done')) return null;
  const iso = anchor === 'start' ? task.startedAt : task.finishedAt;
  return iso === null ? null : frame.minuteOf(iso);
}

/** Where a task's part is now, or where the task is done, for one that is not on its part. */
export function spaceNow(task: Task, { moved, rows }: Place): string {
  if (task.parts.length === 0) return task.space;
  return moved.get(task.partId) ?? rows.parts.get(task.partId)?.part.space ?? task.space;
}
