import type { Yard } from '#planning/yard/yard.ts';
import type { Transaction } from '../client.ts';
import { toProcedure } from '../yard/procedures.ts';
import { loadYard } from '../yard/store.ts';

/**
 * The yard in which each job has the very version of the procedure that its tasks were made from: a
 * newer one must not size them. `@` is no character of an id, so no name is taken; the current
 * versions are there as well, for jobs that are still to come.
 */
export async function loadPinnedYard(tx: Transaction, yardId: string): Promise<Yard> {
  const yard = await loadYard(tx, yardId);
  const jobs = await tx.job.findMany({ where: { yardId } });
  const versions = await tx.procedure.findMany({ where: { yardId, jobs: { some: {} } } });
  const pinned = new Map(
    jobs.map((job) => [job.id, `${job.procedureId}@${String(job.procedureVersion)}`]),
  );
  return {
    ...yard,
    procedures: [
      ...yard.procedures,
      ...versions.map((row) => ({ ...toProcedure(row), id: `${row.id}@${String(row.version)}` })),
    ],
    boats: yard.boats.map((boat) => ({
      ...boat,
      refits: boat.refits.map((refit) => ({
        ...refit,
        parts: refit.parts.map((part) => ({
          ...part,
          jobs: part.jobs.map((job) => ({
            ...job,
            procedure: pinned.get(job.id) ?? job.procedure,
          })),
        })),
      })),
    })),
  };
}
