import { DomainError } from '#kernel/error.ts';
import type { PlanRun as PlanRunRow, Prisma } from '#persistence/generated/client.ts';
import { causeSchema } from '#persistence/plan/candidates.ts';
import { isoOf } from '#persistence/rows.ts';
import { runSubject } from '#persistence/run/events.ts';
import { runPurposeSchema, snapshotOf } from '#persistence/run/snapshot.ts';
import { whyNotSchema } from '#persistence/run/why.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import type { PlanRun } from './plan-runs.contract.ts';

export const runDetails = {
  plan: { select: { id: true } },
} as const satisfies Prisma.PlanRunInclude;

type RunRow = PlanRunRow & { readonly plan: { readonly id: string } | null };

export async function findRun(tx: Tx, yardId: string, id: string): Promise<RunRow> {
  const row = isUuid(id)
    ? await tx.planRun.findUnique({ where: { yardId_id: { yardId, id } }, include: runDetails })
    : null;
  if (!row) throw new DomainError('record.missing', `There is no plan run "${id}".`);
  return row;
}

export function showRun(row: RunRow): PlanRun {
  const why = row.infeasibility === null ? null : whyNotSchema.parse(row.infeasibility);
  return {
    id: row.id,
    requestedBy: row.requestedById,
    purpose: runPurposeSchema.parse(row.purpose),
    cause: causeSchema.parse(row.cause),
    seed: row.seed,
    seconds: row.seconds,
    iterationLimit: row.iterations,
    notBefore: row.notBefore && isoOf(row.notBefore),
    attempts: row.attempts,
    ...snapshotOf(row, row.plan?.id ?? null),
    why: why?.lines ?? [],
    faults:
      why?.faults.map(({ code, path, message, cure }) => ({ code, path, message, cure })) ?? [],
    createdAt: isoOf(row.createdAt),
    startedAt: row.startedAt && isoOf(row.startedAt),
    finishedAt: row.finishedAt && isoOf(row.finishedAt),
    revision: row.revision,
  };
}

/** The first and the last event of a run; it has one from the moment it exists. */
export async function eventSpan(
  tx: Tx,
  yardId: string,
  runId: string,
): Promise<{ first: bigint; last: bigint }> {
  const { _min, _max } = await tx.event.aggregate({
    where: { yardId, subject: runSubject, subjectId: runId },
    _min: { id: true },
    _max: { id: true },
  });
  return { first: _min.id ?? 0n, last: _max.id ?? 0n };
}
