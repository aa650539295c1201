import type { Task } from '../../workload/workload.ts';
import { shortName } from '../reading/rows.ts';
import { spaceNow, type Obstacle, type Place } from './place.ts';
import { leavesOpen } from './structure.ts';

/** Whether dust made in one space gets to the other, past what is closed now. */
function reaches({ yard, spaces, closed }: Place, from: string, to: string): boolean {
  const goes = spaces.get(from)?.dustReaches.includes(to) ?? false;
  return (
    goes &&
    !yard.barriers.some(
      ({ id, blocks }) =>
        closed.has(id) && blocks.some((way) => way.from === from && way.to === to),
    )
  );
}

/** Dust that would meet what is open, either way. */
export function airObstacle(task: Task, place: Place): Obstacle | null {
  if (task.air === 'dusty') {
    const open = place
      .open()
      .find(
        (film) =>
          film.task.id !== task.id && reaches(place, task.space, spaceNow(film.task, place)),
      );
    if (open === undefined) return null;
    const name = shortName(place.rows, open.task.id);
    return { why: `its dust would reach what ${name} left open`, until: open.until };
  }
  if (!leavesOpen(task)) return null;
  const dust = place
    .dust()
    .find((made) => made.task.id !== task.id && reaches(place, made.task.space, task.space));
  if (dust === undefined) return null;
  const name = shortName(place.rows, dust.task.id);
  return { why: `the dust of ${name} has not settled`, until: dust.until };
}
