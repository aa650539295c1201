import { DomainError } from '#kernel/error.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { candidateStateSchema, causeSchema } from '#persistence/plan/candidates.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import { isoOf } from '#persistence/rows.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page } from '../../platform/paging/page.ts';
import type { Candidate, CandidatesQuery } from './candidates.contract.ts';

export type CandidateRow = Prisma.CandidateGetPayload<object>;

export function showCandidate(row: CandidateRow): Candidate {
  return {
    planId: row.planId,
    basePlanId: row.basePlanId,
    state: candidateStateSchema.parse(row.state),
    cause: causeSchema.parse(row.cause),
    moved: row.moved,
    disturbance: row.disturbance,
    createdAt: isoOf(row.createdAt),
    decidedBy: row.decidedById,
    decidedAt: row.decidedAt && isoOf(row.decidedAt),
    revision: row.revision,
  };
}

/** The newest first. */
export async function listCandidates(
  tx: Tx,
  yardId: string,
  { state, ...page }: CandidatesQuery,
): Promise<Page<Candidate>> {
  // The list is read by its plan's id.
  const { where, take } = newestArgs(page);
  const older = where.OR?.map(({ createdAt, ...rest }) => ({
    createdAt,
    ...('id' in rest ? { planId: rest.id } : {}),
  }));
  const rows = await tx.candidate.findMany({
    where: {
      yardId,
      ...(state === undefined ? {} : { state }),
      ...(older === undefined ? {} : { OR: older }),
    },
    orderBy: [{ createdAt: 'desc' }, { planId: 'desc' }],
    take,
  });
  return toNewestPage(
    rows.map((row) => ({ ...row, id: row.planId })),
    page,
    showCandidate,
  );
}

export async function findCandidate(tx: Tx, yardId: string, planId: string): Promise<CandidateRow> {
  const row = isUuid(planId)
    ? await tx.candidate.findUnique({ where: { yardId_planId: { yardId, planId } } })
    : null;
  if (!row) throw new DomainError('record.missing', `There is no candidate "${planId}".`);
  return row;
}

/** The sheet of that plan; with null of the published one. */
export async function findSheet(
  tx: Tx,
  yardId: string,
  id: string | null,
): Promise<{ readonly planId: string; readonly sheet: PlanSheet }> {
  const select = { id: true, sheet: true } as const;
  const row =
    id === null
      ? await tx.plan.findFirst({ where: { yardId, published: { isNot: null } }, select })
      : isUuid(id)
        ? await tx.plan.findUnique({ where: { yardId_id: { yardId, id } }, select })
        : null;
  if (!row) {
    const what = id === null ? 'No plan is published.' : `There is no plan "${id}".`;
    throw new DomainError('record.missing', what);
  }
  return { planId: row.id, sheet: readSheet(row.sheet) };
}
