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

/** Statuses in which a claim keeps its task from others (`claim_one_open`). */
const held = ['open', 'working'] as const;

const iso = (at: Date | null): string | null => at && isoOf(at);

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
    startedAt: iso(row.startedAt),
    finishedAt: iso(row.finishedAt),
    releasedAt: iso(row.releasedAt),
    revision: row.revision,
  };
}

export async function findClaim(tx: Tx, yardId: string, id: string): Promise<Claim> {
  const row = await tx.claim.findFirst({ where: { yardId, ...byId(id) }, include: claimDetails });
  if (!row) throw new DomainError('record.missing', `There is no claim "${id}".`);
  return showClaim(row);
}

/** The claim that keeps the task from others now. */
export async function claimOf(tx: Tx, yardId: string, taskId: string): Promise<Claim | null> {
  const where = { yardId, taskId, status: { in: [...held] } };
  const row = await tx.claim.findFirst({ where, include: claimDetails });
  return row && showClaim(row);
}

export async function heldClaims(tx: Tx, yardId: string): Promise<Claim[]> {
  const where = { yardId, status: { in: [...held] } };
  return (await tx.claim.findMany({ where, include: claimDetails })).map(showClaim);
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

export async function insertClaim(
  tx: Tx,
  yardId: string,
  taskId: string,
  crew: readonly [holder: string, ...others: string[]],
): Promise<string> {
  const { id } = await tx.claim.create({ data: { yardId, taskId, memberId: crew[0] } });
  for (const memberId of crew)
    await tx.claimMember.create({ data: { yardId, claimId: id, memberId } });
  return id;
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
