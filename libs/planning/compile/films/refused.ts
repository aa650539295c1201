import type { Task } from '../../workload/workload.ts';
import type { Films } from './films.ts';
import { safeOf, type Refused } from './refusals.ts';
import type { Whereabouts } from './whereabouts.ts';

/** Starts that its material refuses to a task of so many minutes. */
export function refusedStarts(
  task: Task,
  minutes: number,
  films: Films,
  whereabouts: Whereabouts,
): readonly Refused[] {
  if (task.material === null) return [];
  const places = whereabouts.ofFilm(task, safeOf(films.material(task.material)));
  return films.refused(task.material, places, minutes);
}
