import { DomainError } from '#kernel/error.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { isoOf } from '#persistence/rows.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { Invitation } from './invitations.contract.ts';

/** A person of a yard. */
export interface Whom {
  readonly yardId: string;
  readonly memberId: string;
}

const invitationDetails = {
  member: { select: { name: true } },
  invitedBy: { select: { name: true } },
} as const satisfies Prisma.InvitationInclude;

type InvitationRow = Prisma.InvitationGetPayload<{ include: typeof invitationDetails }>;

export async function listInvitations(
  tx: Tx,
  yardId: string,
  page: PageRequest,
  now: Date,
): Promise<Page<Invitation>> {
  const { where, ...rest } = newestArgs(page);
  const rows = await tx.invitation.findMany({
    where: { yardId, ...where },
    ...rest,
    include: invitationDetails,
  });
  return toNewestPage(rows, page, (row) => showInvitation(row, now));
}

/**
 * Keeps the person from being invited twice at once, or while an invitation is being accepted:
 * the lock is the one that an acceptance takes.
 */
export async function lockInvitable(tx: Tx, { yardId, memberId }: Whom): Promise<void> {
  await tx.$executeRaw`SELECT 1 FROM member WHERE yard_id = ${yardId} AND id = ${memberId} FOR UPDATE`;
  const person = await tx.member.findUnique({
    where: { yardId_id: { yardId, id: memberId } },
    select: { name: true, accountId: true },
  });
  if (!person) throw new DomainError('record.missing', `There is no person "${memberId}".`);
  if (person.accountId === null) return;
  throw new DomainError('record.exists', `${person.name} signs in with an account already.`, {
    cure: 'If it is to be another account, end the access of the present one first.',
  });
}

/** Mails to strangers are a nuisance that a yard could make with any address. */
export const countMailed = (tx: Tx, yardId: string, since: Date): Promise<number> =>
  tx.invitation.count({ where: { yardId, email: { not: null }, createdAt: { gt: since } } });

export interface FreshInvitation extends Whom {
  readonly email: string | null;
  readonly invitedById: string;
  readonly tokenHash: Uint8Array<ArrayBuffer>;
  readonly createdAt: Date;
  readonly expiresAt: Date;
}

export async function insertInvitation(tx: Tx, fresh: FreshInvitation): Promise<Invitation> {
  const row = await tx.invitation.create({ data: fresh, include: invitationDetails });
  return showInvitation(row, fresh.createdAt);
}

/** Ends what is open for the person; there is one at most. */
export async function revokeOpen(tx: Tx, { yardId, memberId }: Whom, now: Date): Promise<void> {
  await tx.invitation.updateMany({
    where: { yardId, memberId, acceptedAt: null, revokedAt: null },
    data: { revokedAt: now },
  });
}

/** Ends what is open of those that the member gave to others. */
export async function revokeGiven(tx: Tx, { yardId, memberId }: Whom, now: Date): Promise<void> {
  await tx.invitation.updateMany({
    where: { yardId, invitedById: memberId, acceptedAt: null, revokedAt: null },
    data: { revokedAt: now },
  });
}

/** The person whom the invitation was for, where it was still open; null where it had ended. */
export async function revokeInvitation(
  tx: Tx,
  yardId: string,
  id: string,
  now: Date,
): Promise<string | null> {
  const row = isUuid(id)
    ? await tx.invitation.findUnique({ where: { yardId_id: { yardId, id } } })
    : null;
  if (!row) throw new DomainError('record.missing', `There is no invitation "${id}".`);
  const { count } = await tx.invitation.updateMany({
    where: { yardId, id, acceptedAt: null, revokedAt: null },
    data: { revokedAt: now },
  });
  if (count === 1) return row.memberId;
  const { acceptedAt } = await tx.invitation.findUniqueOrThrow({
    where: { yardId_id: { yardId, id } },
  });
  if (acceptedAt === null) return null;
  throw new DomainError('record.in-use', 'The invitation is accepted.', {
    cure: 'End the person’s access instead.',
  });
}

function showInvitation(row: InvitationRow, now: Date): Invitation {
  const { acceptedAt, revokedAt, expiresAt } = row;
  const isExpired = expiresAt <= (revokedAt ?? now);
  return {
    id: row.id,
    personId: row.memberId,
    person: row.member.name,
    email: row.email,
    invitedBy: row.invitedBy.name,
    state: acceptedAt ? 'accepted' : isExpired ? 'expired' : revokedAt ? 'revoked' : 'open',
    createdAt: isoOf(row.createdAt),
    expiresAt: isoOf(expiresAt),
    acceptedAt: acceptedAt && isoOf(acceptedAt),
    revokedAt: revokedAt && isoOf(revokedAt),
  };
}
