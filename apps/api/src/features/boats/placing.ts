import { DomainError } from '#kernel/error.ts';
import type { Job, Part, Refit } from '#planning/yard/boats.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { type Changed, placed } from '../soundness/soundness.service.ts';

const has = (records: readonly { readonly id: string }[], wanted: string): boolean =>
  records.some(({ id }) => id === wanted);

/** The yard with the refit in place of the one of its id, or as a further one of the boat. */
export function withRefit(yard: Yard, refit: Refit, boatId?: string): Changed {
  const boats = yard.boats.map((boat) =>
    boat.id === boatId || has(boat.refits, refit.id)
      ? { ...boat, refits: placed(boat.refits, refit) }
      : boat,
  );
  return changedAt({ ...yard, boats }, 'refits', refit.id);
}

export function withPart(yard: Yard, part: Part, refitId?: string): Changed {
  return eachRefit(yard, 'parts', part.id, (refit) =>
    refit.id === refitId || has(refit.parts, part.id)
      ? { ...refit, parts: placed(refit.parts, part) }
      : refit,
  );
}

export function withJob(yard: Yard, job: Job, partId: string): Changed {
  return eachRefit(yard, 'jobs', job.id, (refit) => ({
    ...refit,
    parts: refit.parts.map((part) =>
      part.id === partId ? { ...part, jobs: placed(part.jobs, job) } : part,
    ),
  }));
}

function eachRefit(yard: Yard, kind: Kind, id: string, change: (refit: Refit) => Refit): Changed {
  const boats = yard.boats.map((boat) => ({ ...boat, refits: boat.refits.map(change) }));
  return changedAt({ ...yard, boats }, kind, id);
}

type Kind = 'refits' | 'parts' | 'jobs';

/** Ids are unique among refits, among parts and among jobs, not between these. */
function changedAt(yard: Yard, kind: Kind, wanted: string): Changed {
  for (const [path, record] of recordsOf(yard, kind)) {
    if (record.id === wanted) return { yard, path };
  }
  throw new DomainError('record.missing');
}

function recordsOf(yard: Yard, kind: Kind): (readonly [string, { readonly id: string }])[] {
  const refits = yard.boats.flatMap((boat, b) => within(boat.refits, `boats[${String(b)}].refits`));
  if (kind === 'refits') return refits;
  const parts = refits.flatMap(([path, refit]) => within(refit.parts, `${path}.parts`));
  if (kind === 'parts') return parts;
  return parts.flatMap(([path, part]) => within(part.jobs, `${path}.jobs`));
}

function within<T>(records: readonly T[], path: string): (readonly [string, T])[] {
  return records.map((record, index) => [`${path}[${String(index)}]`, record]);
}
