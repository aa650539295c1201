import type { Task } from '../../workload/workload.ts';
import { pathOf } from '../../yard/path.ts';
import type { Yard } from '../../yard/yard.ts';

/** Where a job stands in the yard file. */
export function jobPath(yard: Yard, jobId: string): string {
  for (const [b, boat] of yard.boats.entries()) {
    for (const [r, refit] of boat.refits.entries()) {
      for (const [p, part] of refit.parts.entries()) {
        const j = part.jobs.findIndex((job) => job.id === jobId);
        if (j >= 0) return pathOf(['boats', b, 'refits', r, 'parts', p, 'jobs', j]);
      }
    }
  }
  return '';
}

/** Where the step of a task stands in the yard file. */
export function stepPath(yard: Yard, task: Task): string {
  const jobs = yard.boats.flatMap((boat) =>
    boat.refits.flatMap((refit) => refit.parts.flatMap((part) => part.jobs)),
  );
  const job = jobs.find(({ id }) => id === task.jobId);
  const p = yard.procedures.findIndex(({ id }) => id === job?.procedure);
  const s = p < 0 ? -1 : yard.procedures[p].steps.findIndex(({ id }) => id === task.stepId);
  return s < 0 ? jobPath(yard, task.jobId) : pathOf(['procedures', p, 'steps', s]);
}

/** `"Bed on foam" on Main bulkhead (kornog-bulkhead.bed)`. */
export function taskWords(yard: Yard, task: Task): string {
  const part = yard.boats
    .flatMap((boat) => boat.refits.flatMap((refit) => refit.parts))
    .find(({ id }) => id === task.partId);
  return `"${task.name}" on ${part?.name ?? task.partId} (${task.id})`;
}

export const skillName = (yard: Yard, id: string): string =>
  yard.skills.find((skill) => skill.id === id)?.name ?? id;
export const spaceName = (yard: Yard, id: string): string =>
  yard.spaces.find((space) => space.id === id)?.name ?? id;

/** Minutes as people say them: `45 min`, `3 h`, `3 h 20 min`. */
export function duration(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  if (hours === 0) return `${String(rest)} min`;
  return rest === 0 ? `${String(hours)} h` : `${String(hours)} h ${String(rest)} min`;
}
