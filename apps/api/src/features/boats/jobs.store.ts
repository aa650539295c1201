import { DomainError } from '#kernel/error.ts';
import {
  jobDetails,
  type JobRow,
  saveJobs,
  saveWaits,
  toJob,
  wordsColumn,
} from '#persistence/yard/jobs.ts';
import type { Tx } from '../../platform/database/database.ts';
import { deletedOne } from '../../platform/database/delete-one.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import type { Job, JobInput } from './boats.contract.ts';

export async function findJob(tx: Tx, yardId: string, id: string): Promise<Job> {
  const row = await tx.job.findUnique({
    where: { yardId_id: { yardId, id } },
    include: jobDetails,
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

export async function updateJob(
  tx: Tx,
  yardId: string,
  id: string,
  revision: number,
  { waitsFor, words }: Pick<Job, 'waitsFor' | 'words'>,
): Promise<void> {
  const data = { words: wordsColumn(words) };
  changedOne(await tx.job.updateMany({ where: { yardId, id, revision }, data }));
  await saveWaits(tx, yardId, [{ id, waitsFor }]);
}

export const showJob = (row: JobRow): Job => ({
  ...toJob(row),
  procedureVersion: row.procedureVersion,
  revision: row.revision,
});

/** Refused while another job comes after it. */
export async function deleteJob(tx: Tx, yardId: string, id: string): Promise<void> {
  await deletedOne(tx.job.deleteMany({ where: { yardId, id } }));
}
