import type { Scope } from '#access/rule.ts';
import { DomainError } from '#kernel/error.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { isoOf } from '#persistence/rows.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { ProgramKey } from './program-keys.contract.ts';

/** The keys of a yard, or of one member of it. */
export interface Whose {
  readonly yardId: string;
  readonly memberId?: string;
}

const keyDetails = {
  member: { select: { name: true } },
} as const satisfies Prisma.ProgramKeyInclude;

type KeyRow = Prisma.ProgramKeyGetPayload<{ include: typeof keyDetails }>;

export async function listKeys(
  tx: Tx,
  whose: Whose,
  page: PageRequest,
  now: Date,
): Promise<Page<ProgramKey>> {
  const { where, ...rest } = newestArgs(page);
  const rows = await tx.programKey.findMany({
    where: { ...whose, ...where },
    ...rest,
    include: keyDetails,
  });
  return toNewestPage(rows, page, (row) => showKey(row, now));
}

export interface FreshKey extends Required<Whose> {
  readonly name: string;
  readonly scopes: readonly Scope[];
  readonly tokenHash: Uint8Array<ArrayBuffer>;
  readonly createdAt: Date;
  readonly expiresAt: Date;
}

export async function insertKey(tx: Tx, { scopes, ...fresh }: FreshKey): Promise<ProgramKey> {
  const row = await tx.programKey.create({
    data: { ...fresh, scopes: [...scopes] },
    include: keyDetails,
  });
  return showKey(row, fresh.createdAt);
}

export const countOpen = (tx: Tx, whose: Whose, now: Date): Promise<number> =>
  tx.programKey.count({ where: { ...whose, revokedAt: null, expiresAt: { gt: now } } });

/** Ends one key; one that has ended stays as it is. */
export async function revokeKey(tx: Tx, whose: Whose, id: string, now: Date): Promise<void> {
  const key = isUuid(id)
    ? await tx.programKey.findFirst({ where: { ...whose, id }, select: { id: true } })
    : null;
  if (!key) throw new DomainError('record.missing', `There is no program key "${id}".`);
  await tx.programKey.updateMany({
    where: { ...whose, id, revokedAt: null },
    data: { revokedAt: now },
  });
}

/** Ends those that still open something, and reach further than `within` where that is given. */
export async function revokeOpenKeys(
  tx: Tx,
  whose: Whose,
  now: Date,
  within?: ReadonlySet<Scope>,
): Promise<void> {
  const open = await tx.programKey.findMany({
    where: { ...whose, revokedAt: null },
    select: { id: true, scopes: true },
  });
  const kept: ReadonlySet<string> = within ?? new Set();
  const ids = open.flatMap(({ id, scopes }) =>
    within !== undefined && scopes.every((scope) => kept.has(scope)) ? [] : [id],
  );
  await tx.programKey.updateMany({
    where: { yardId: whose.yardId, id: { in: ids } },
    data: { revokedAt: now },
  });
}

export async function deleteKeys(tx: Tx, whose: Required<Whose>): Promise<void> {
  await tx.programKey.deleteMany({ where: whose });
}

function showKey(row: KeyRow, now: Date): ProgramKey {
  const { revokedAt, expiresAt } = row;
  const isExpired = expiresAt <= (revokedAt ?? now);
  return {
    id: row.id,
    personId: row.memberId,
    person: row.member.name,
    name: row.name,
    scopes: ProgramKey.schema.shape.scopes.parse(row.scopes),
    state: isExpired ? 'expired' : revokedAt === null ? 'open' : 'revoked',
    createdAt: isoOf(row.createdAt),
    expiresAt: isoOf(expiresAt),
    lastUsedAt: row.lastUsedAt && isoOf(row.lastUsedAt),
    revokedAt: revokedAt && isoOf(revokedAt),
  };
}
