import { DomainError } from '#kernel/error.ts';
import type {
  Plan as PlanRow,
  Prisma,
  PublishedPlan as PublishedRow,
} from '#persistence/generated/client.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import { solveStatusSchema } from '#persistence/plan/sheet-shape.ts';
import { isoOf } from '#persistence/rows.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { PlanSummary, PublishedPlan, Publishing, WholePlan } from './plans.contract.ts';

const published = { select: { publishedAt: true } } as const;

export const summaryFields = {
  id: true,
  runId: true,
  createdAt: true,
  status: true,
  lateness: true,
  finishes: true,
  money: true,
  disturbance: true,
  refits: { orderBy: { refit: 'asc' } },
  published,
} as const satisfies Prisma.PlanSelect;

type SummaryRow = Prisma.PlanGetPayload<{ select: typeof summaryFields }>;

export function showSummary({ published: at, refits, ...row }: SummaryRow): PlanSummary {
  return {
    id: row.id,
    runId: row.runId,
    createdAt: isoOf(row.createdAt),
    publishedAt: at && isoOf(at.publishedAt),
    status: solveStatusSchema.parse(row.status),
    lateness: row.lateness,
    finishes: row.finishes,
    money: row.money,
    disturbance: row.disturbance,
    refits: refits.map(({ refitId, promised, finishAt }) => ({
      refitId,
      promised: promised && isoOf(promised),
      finish: isoOf(finishAt),
    })),
  };
}

const planFields = {
  id: true,
  runId: true,
  createdAt: true,
  engineVersion: true,
  sheet: true,
  published,
} as const satisfies Prisma.PlanSelect;

type DocumentRow = Pick<PlanRow, 'id' | 'runId' | 'createdAt' | 'engineVersion' | 'sheet'> & {
  readonly published: Pick<PublishedRow, 'publishedAt'> | null;
};

/** The plan of that id; with null the published one. */
export async function findPlan(tx: Tx, yardId: string, id: string | null): Promise<WholePlan> {
  const row =
    id === null
      ? await tx.plan.findFirst({
          where: { yardId, published: { isNot: null } },
          select: planFields,
        })
      : await byId(tx, yardId, id);
  if (!row) {
    const what = id === null ? 'No plan is published.' : `There is no plan "${id}".`;
    throw new DomainError('record.missing', what);
  }
  return showPlan(row);
}

async function byId(tx: Tx, yardId: string, id: string): Promise<DocumentRow | null> {
  if (!isUuid(id)) return null;
  return tx.plan.findUnique({ where: { yardId_id: { yardId, id } }, select: planFields });
}

/** Which shape of sheet it is concerns the storage only. */
function documentOf<T extends { readonly version: number }>({ version: _version, ...document }: T) {
  return document;
}

function showPlan(row: DocumentRow): WholePlan {
  return {
    id: row.id,
    runId: row.runId,
    createdAt: isoOf(row.createdAt),
    publishedAt: row.published && isoOf(row.published.publishedAt),
    engineVersion: row.engineVersion,
    ...documentOf(readSheet(row.sheet)),
  };
}

export function showPublished(row: PublishedRow): PublishedPlan {
  return {
    planId: row.planId,
    publishedAt: isoOf(row.publishedAt),
    publishedBy: row.publishedById,
    revision: row.revision,
  };
}

/** The newest first. */
export async function listPublishings(
  tx: Tx,
  yardId: string,
  page: PageRequest,
): Promise<Page<Publishing>> {
  const { where, take } = newestArgs(page);
  const older = where.OR?.map(({ createdAt, ...rest }) => ({ publishedAt: createdAt, ...rest }));
  const rows = await tx.publishing.findMany({
    where: { yardId, ...(older === undefined ? {} : { OR: older }) },
    orderBy: [{ publishedAt: 'desc' }, { id: 'desc' }],
    take,
  });
  const dated = rows.map((row) => ({ ...row, createdAt: row.publishedAt }));
  return toNewestPage(dated, page, ({ id, planId, publishedAt, publishedById }) => ({
    id,
    planId,
    publishedAt: isoOf(publishedAt),
    publishedBy: publishedById,
  }));
}
