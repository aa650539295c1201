import { DomainError, fault } from '#kernel/error.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { inOrder, isoOf } from '#persistence/rows.ts';
import type { Tx } from '../../platform/database/database.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { Claim, ClaimsWanted } from './claims.contract.ts';

const claimDetails = {
  task: { include: { part: { include: { refit: { include: { boat: true } } } } } },
  member: true,
  crew: { ...inOrder, include: { member: true } },
} as const satisfies Prisma.ClaimInclude;
type ClaimRow = Prisma.ClaimGetPayload<{ include: typeof claimDetails }>;

export const iso = (at: Date | null): string | null => at && isoOf(at);

function showClaim({ task, member, crew, ...row }: ClaimRow): Claim {
  return {
    id: row.id,
    taskId: row.taskId,
    task: task.name,
    part: task.part.name,
    boat: task.part.refit.boat.name,
    holder: { id: member.id, name: member.name },
    crew: crew.map(({ member: { id, name } }) => ({ id, name })),
    status: row.status,
    claimedAt: isoOf(row.claimedAt),
    lapsesAt: iso(row.lapsesAt),
    startedAt: iso(row.startedAt),
    finishedAt: iso(row.finishedAt),
    releasedAt: iso(row.releasedAt),
    override: overrideOf(row),
    revision: row.revision,
  };
}

export async function findClaim(tx: Tx, yardId: string, id: string): Promise<Claim> {
  const row = await tx.claim.findFirst({ where: { yardId, ...byId(id) }, include: claimDetails });
  if (!row) throw new DomainError('record.missing', `There is no claim "${id}".`);
  return showClaim(row);
}

export const overrideOf = ({
  overrideReason: reason,
  overrideById: byId,
}: Pick<ClaimRow, 'overrideReason' | 'overrideById'>): Claim['override'] =>
  reason === null || byId === null ? null : { reason, byId };

/** Throws `record.missing`. */
export async function taskOfClaim(tx: Tx, yardId: string, id: string): Promise<string> {
  const row = await tx.claim.findFirst({
    where: { yardId, ...byId(id) },
    select: { taskId: true },
  });
  if (!row) throw new DomainError('record.missing', `There is no claim "${id}".`);
  return row.taskId;
}

/** The latest first. */
export async function listClaims(
  tx: Tx,
  yardId: string,
  memberId: string,
  wanted: ClaimsWanted,
  page: PageRequest,
): Promise<Page<Claim>> {
  const rows = await tx.claim.findMany({
    where: {
      yardId,
      ...(wanted.status === undefined ? {} : { status: wanted.status }),
      ...(wanted.mine ? { crew: { some: { memberId } } } : {}),
      ...afterCursor(page.after),
    },
    include: claimDetails,
    orderBy: [{ claimedAt: 'desc' }, { id: 'asc' }],
    take: page.first + 1,
  });
  const shown = rows.slice(0, page.first);
  const last = shown.at(-1);
  return {
    items: shown.map(showClaim),
    nextCursor: rows.length > page.first && last ? cursorOf(last) : null,
  };
}

/** A claim's id is a UUID; other text names none, and the database would refuse it. */
function byId(id: string): { id: string } | { id: { in: string[] } } {
  return /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(id) ? { id } : { id: { in: [] } };
}

function cursorOf({ claimedAt, id }: ClaimRow): string {
  return Buffer.from(`${claimedAt.toISOString()} ${id}`).toString('base64url');
}

function afterCursor(cursor: string | undefined): Prisma.ClaimWhereInput {
  if (cursor === undefined) return {};
  const read = /^(\S{24}) ([0-9a-f-]{36})$/.exec(Buffer.from(cursor, 'base64url').toString());
  const at = new Date(read?.[1] ?? NaN);
  if (read === null || Number.isNaN(at.getTime())) {
    const wrong = fault('input.field', 'after', 'not a cursor of this list', {
      value: cursor,
      cure: 'Use the nextCursor of the page before, or leave it out.',
    });
    throw new DomainError('input.field', `after: ${wrong.message}`, { faults: [wrong] });
  }
  return { OR: [{ claimedAt: { lt: at } }, { claimedAt: at, id: { gt: read[2] } }] };
}
