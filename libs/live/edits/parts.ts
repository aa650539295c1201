import { DomainError } from '#kernel/error.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Part, Refit } from '#planning/yard/boats.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { NewSize, WorkEdits } from './edits.ts';
import { workOfJobs } from './new-work.ts';

const resized = (part: Part, sizes: readonly NewSize[]): Part => {
  const size = sizes.findLast(({ partId }) => partId === part.id);
  if (size === undefined) return part;
  const { areaM2 = part.areaM2, edgeM = part.edgeM, jointM = part.jointM } = size;
  return { ...part, areaM2, edgeM, jointM };
};

const eachRefit = (yard: Yard, change: (refit: Refit) => Refit): Yard => ({
  ...yard,
  boats: yard.boats.map((boat) => ({ ...boat, refits: boat.refits.map(change) })),
});

const partsOf = (yard: Yard): Part[] =>
  yard.boats.flatMap(({ refits }) => refits.flatMap(({ parts }) => parts));

/**
 * The yard with the parts' new measures and with the new parts. Parts that are dropped stay in it:
 * what was done on them was. Throws `record.missing` and `record.exists`.
 */
export function withParts(yard: Yard, { resize, addParts, dropParts }: WorkEdits): Yard {
  const known = new Set(partsOf(yard).map(({ id }) => id));
  for (const id of [...resize.map(({ partId }) => partId), ...dropParts])
    if (!known.has(id)) throw new DomainError('record.missing', `There is no part "${id}".`);
  const refits = new Set(yard.boats.flatMap((boat) => boat.refits.map(({ id }) => id)));
  for (const { refitId, part } of addParts) {
    if (!refits.has(refitId))
      throw new DomainError('record.missing', `There is no refit "${refitId}".`);
    if (known.has(part.id))
      throw new DomainError('record.exists', `There is a part "${part.id}" already.`);
    known.add(part.id);
  }
  if (resize.length + addParts.length === 0) return yard;
  return eachRefit(yard, (refit) => ({
    ...refit,
    parts: [
      ...refit.parts.map((part) => resized(part, resize)),
      ...addParts.filter(({ refitId }) => refitId === refit.id).map(({ part }) => part),
    ],
  }));
}

/**
 * The work of the new parts, as their jobs' procedures have it. `yard` has the parts already; jobs come
 * after others of their refit only.
 */
export function workOfParts(
  yard: Yard,
  before: Workload,
  addParts: WorkEdits['addParts'],
): Workload {
  const jobs = new Set(addParts.flatMap(({ part }) => part.jobs.map(({ id }) => id)));
  const refits = new Set(addParts.map(({ refitId }) => refitId));
  const touched = yard.boats.map((boat) => ({
    ...boat,
    refits: boat.refits.filter(({ id }) => refits.has(id)),
  }));
  return workOfJobs({ ...yard, boats: touched }, before, jobs);
}
