import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Task } from '../../workload/workload.ts';
import type { Yard } from '../../yard/yard.ts';
import { spaceNow, timeOf, type Obstacle, type Place } from '../reading/place.ts';
import { shortName } from '../reading/rows.ts';

/** Until when what a task left may not be reached by dust; null where nobody knows. */
function openUntil(task: Task, place: Place): number | null {
  const covered = task.coveredBy.some((cover) => {
    const state = place.rows.tasks.get(cover)?.state ?? 'waiting';
    return state !== 'waiting';
  });
  if (covered) return -Infinity;
  if (task.coveredBy.length > 0) return null;
  const laid = timeOf(task, 'finish', place.frame);
  if (laid === null) return null;
  const moment = task.sensitiveUntil ?? { kind: 'milestone', milestone: 'dust-safe' };
  if (moment.kind === 'after') return laid + moment.minutes;
  if (task.material === null) return -Infinity;
  const places = place.whereabouts.ofFilm(task, moment.milestone);
  return reachedAt(place.films.clock(task.material, moment.milestone, 'open', places), laid);
}

/** Whether dust made in one space gets to the other, past what is closed now. */
function reaches(yard: Yard, place: Place, from: string, to: string): boolean {
  const goes = yard.spaces.find(({ id }) => id === from)?.dustReaches.includes(to) ?? false;
  const barred = yard.barriers.some(
    ({ id, blocks }) =>
      place.closed.has(id) && blocks.some((way) => way.from === from && way.to === to),
  );
  return goes && !barred;
}

const leavesOpen = (task: Task): boolean => task.material !== null || task.sensitiveUntil !== null;

/** Dust that would meet what is open, either way. */
export function airObstacle(task: Task, yard: Yard, place: Place): Obstacle | null {
  const settles = new Map(yard.spaces.map(({ id, settlingMinutes }) => [id, settlingMinutes]));
  for (const other of place.workload.tasks) {
    if (other.id === task.id || other.state === 'waiting') continue;
    const name = shortName(place.rows, other.id);
    if (
      task.air === 'dusty' &&
      leavesOpen(other) &&
      reaches(yard, place, task.space, spaceNow(other, place))
    ) {
      const safe = openUntil(other, place);
      if (safe === null || safe > place.now)
        return { why: `its dust would reach what ${name} left open`, until: safe };
    }
    if (
      task.air !== 'dusty' &&
      leavesOpen(task) &&
      other.air === 'dusty' &&
      reaches(yard, place, other.space, task.space)
    ) {
      const done = timeOf(other, 'finish', place.frame);
      const settled = done === null ? null : done + (settles.get(other.space) ?? 0);
      if (settled === null || settled > place.now)
        return { why: `the dust of ${name} has not settled`, until: settled };
    }
  }
  return null;
}
