import type { Frame } from '../../compile/frame/time.ts';
import { isOver } from '../../workload/standing.ts';
import type { Task } from '../../workload/workload.ts';

/** When begun work really began or was over, in minutes of the frame; null where it has not. */
export function timeOf(task: Task, anchor: 'start' | 'finish', frame: Frame): number | null {
  if (task.state === 'waiting' || (anchor === 'finish' && !isOver(task))) return null;
  const iso = anchor === 'start' ? task.startedAt : task.finishedAt;
  return iso === null ? null : frame.minuteOf(iso);
}
