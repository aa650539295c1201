import { DomainError } from '#kernel/error.ts';
import { inOrder } from '#persistence/rows.ts';
import { type PartRow, saveJobs } from '#persistence/yard/boats.ts';
import type { Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import type { Job, JobInput } from './boats.contract.ts';

export async function findJob(tx: Tx, yardId: string, id: string): Promise<Job> {
  const row = await tx.job.findUnique({
    where: { yardId_id: { yardId, id } },
    include: { after: inOrder },
  });
  if (!row) throw new DomainError('record.missing', `There is no job "${id}".`);
  return showJob(row);
}

export async function insertJob(
  tx: Tx,
  yardId: string,
  partId: string,
  job: JobInput,
): Promise<void> {
  await saveJobs(tx, yardId, [{ id: partId, jobs: [job] }]);
}

export function showJob(row: PartRow['jobs'][number]): Job {
  return {
    id: row.id,
    procedure: row.procedureId,
    after: row.after.map(({ afterId }) => afterId),
    procedureVersion: row.procedureVersion,
    revision: row.revision,
  };
}

/** Refused while another job comes after it. */
export async function deleteJob(tx: Tx, yardId: string, id: string): Promise<void> {
  await deletedOne(tx.job.deleteMany({ where: { yardId, id } }));
}
