import type { z } from 'zod';
import { DomainError, fault } from '#kernel/error.ts';
import { jobSchema, type Job, type Part } from '#planning/yard/boats.ts';
import type { Transaction } from '../client.ts';
import type { Prisma } from '../generated/client.ts';
import { asJson, inOrder, insert, nothingLeft, utcOf } from '../rows.ts';
import { currentVersions } from './procedures.ts';

/** Jobs of parts that exist, each at its procedure's current version. */
export async function saveJobs(
  tx: Transaction,
  yardId: string,
  parts: readonly Pick<Part, 'id' | 'jobs'>[],
): Promise<void> {
  const versions = await currentVersions(tx, yardId);
  const rows = parts.flatMap((part) =>
    part.jobs.map((job) => jobRow(yardId, part.id, job, versions)),
  );
  await insert(tx.job, rows);
  const jobs = parts.flatMap((part) => part.jobs);
  await insert(
    tx.jobAfter,
    jobs.flatMap(({ id, after }) =>
      after.map((afterId): Prisma.JobAfterCreateManyInput => ({ yardId, jobId: id, afterId })),
    ),
  );
  await insert(
    tx.jobJoin,
    jobs.flatMap(({ id, joins }) =>
      joins.map((partId): Prisma.JobJoinCreateManyInput => ({ yardId, jobId: id, partId })),
    ),
  );
  await saveWaits(tx, yardId, jobs);
}

/** What jobs wait for, in place of what they waited for. */
export async function saveWaits(
  tx: Transaction,
  yardId: string,
  jobs: readonly Pick<Job, 'id' | 'waitsFor'>[],
): Promise<void> {
  await tx.jobWait.deleteMany({ where: { yardId, jobId: { in: jobs.map(({ id }) => id) } } });
  await insert(
    tx.jobWait,
    jobs.flatMap(({ id, waitsFor }) =>
      waitsFor.map(({ delivery, step, ...rest }): Prisma.JobWaitCreateManyInput => {
        nothingLeft(rest);
        return { yardId, jobId: id, deliveryId: delivery, stepId: step };
      }),
    ),
  );
}

export const wordsColumn = (words: Job['words']): Prisma.InputJsonValue =>
  asJson(words.map((word) => ({ ...word, expected: utcOf(word.expected) })));

function jobRow(
  yardId: string,
  partId: string,
  { id, procedure, destination, words, after: _a, joins: _j, waitsFor: _w, ...rest }: Job,
  versions: ReadonlyMap<string, number>,
): Prisma.JobCreateManyInput {
  nothingLeft(rest);
  const procedureVersion = versions.get(procedure);
  if (procedureVersion === undefined) {
    const message = `The job "${id}" names the procedure "${procedure}", which the yard does not have`;
    throw new DomainError('yard.reference', message, {
      faults: [fault('yard.reference', 'procedure', message, { value: procedure })],
    });
  }
  return {
    yardId,
    id,
    partId,
    procedureId: procedure,
    procedureVersion,
    destinationId: destination,
    words: wordsColumn(words),
  };
}

export const jobDetails = {
  after: inOrder,
  joins: inOrder,
  waits: inOrder,
} as const satisfies Prisma.JobInclude;
export type JobRow = Prisma.JobGetPayload<{ include: typeof jobDetails }>;

const wordList: z.ZodType<Job['words']> = jobSchema.shape.words;

export const toJob = (row: JobRow): Job => ({
  id: row.id,
  procedure: row.procedureId,
  after: row.after.map(({ afterId }) => afterId),
  destination: row.destinationId,
  joins: row.joins.map(({ partId }) => partId),
  waitsFor: row.waits.map(({ deliveryId, stepId }) => ({ delivery: deliveryId, step: stepId })),
  words: wordList.parse(row.words),
});
