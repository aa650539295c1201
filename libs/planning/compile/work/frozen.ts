import { intersect } from '#calendar/intervals.ts';
import type { Interval } from '#scheduling/model/problem.ts';
import { isOver, isToPlan } from '../../workload/standing.ts';
import type { Task } from '../../workload/workload.ts';
import type { Crew } from '../site/crew.ts';
import type { Frame } from '../frame/time.ts';

/** When begun work really was or is, and where the problem puts it: nothing lies before minute 0. */
export interface Begun {
  readonly start: number;
  readonly finish: number;
  readonly placedStart: number;
  readonly placedFinish: number;
  /** Over, as opposed to still going on. */
  readonly over: boolean;
  /** Builders whom it still occupies. */
  readonly builders: readonly number[];
}

/** The minute at which so much work is done by a crew that begins at `start`. */
function expected(
  task: Task,
  start: number,
  crew: Crew,
  builders: readonly number[],
  horizon: number,
): number {
  const { skill } = task;
  if (skill === null) return start;
  const speed = builders.reduce((sum, builder) => sum + crew.speed(builder, skill), 0);
  let left = Math.max(
    task.floorMinutes,
    Math.ceil((task.workMinutes * 100) / (speed > 0 ? speed : 100)),
  );
  if (!task.splittable || builders.length === 0) return start + left;
  let common: readonly Interval[] = [{ start, end: horizon }];
  for (const builder of builders) common = intersect(common, crew.worksFrom(builder, start));
  for (const span of common) {
    if (span.end - span.start >= left) return span.start + left;
    left -= span.end - span.start;
  }
  return horizon;
}

/**
 * The time of a task that has begun; null while it waits, or was put aside: then its rest is planned.
 * Work still going on ends after `now`.
 */
export function begunOf(task: Task, crew: Crew, frame: Frame): Begun | null {
  if (isToPlan(task) || task.startedAt === null) return null;
  const start = frame.minuteOf(task.startedAt);
  const builders = task.crew.flatMap((person) => crew.builderIndex.get(person) ?? []);
  const stated = task.finishedAt === null ? null : frame.minuteOf(task.finishedAt);
  let finish = stated ?? expected(task, start, crew, builders, frame.horizon);
  if (task.state === 'working') finish = Math.max(finish, frame.now + 1);
  finish = Math.max(start, Math.min(frame.horizon, finish));
  return {
    start,
    finish,
    placedStart: Math.max(0, start),
    placedFinish: Math.max(0, finish),
    over: isOver(task),
    builders: task.state === 'working' ? builders : [],
  };
}
