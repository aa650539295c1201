import { DomainError } from '#kernel/error.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import type { Role } from '#planning/yard/people.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { Calendar } from './calendars.contract.ts';

/** The calendars of a yard, or of one member of it. */
export interface Whose {
  readonly yardId: string;
  readonly memberId?: string;
}

const details = {
  member: { select: { name: true } },
} as const satisfies Prisma.CalendarLinkInclude;

type Row = Prisma.CalendarLinkGetPayload<{ include: typeof details }>;

export async function listCalendars(
  tx: Tx,
  whose: Whose,
  page: PageRequest,
): Promise<Page<Calendar>> {
  const { where, ...rest } = newestArgs(page);
  const rows = await tx.calendarLink.findMany({
    where: { ...whose, ...where },
    ...rest,
    include: details,
  });
  return toNewestPage(rows, page, show);
}

export async function insertCalendar(
  tx: Tx,
  data: Prisma.CalendarLinkUncheckedCreateInput,
): Promise<Calendar> {
  return show(await tx.calendarLink.create({ data, include: details }));
}

export const countOpen = (tx: Tx, whose: Whose): Promise<number> =>
  tx.calendarLink.count({ where: { ...whose, revokedAt: null } });

/** Ends one; one that has ended stays as it is. */
export async function revokeOne(tx: Tx, whose: Whose, id: string): Promise<void> {
  const link = isUuid(id)
    ? await tx.calendarLink.findFirst({ where: { ...whose, id }, select: { id: true } })
    : null;
  if (!link) throw new DomainError('record.missing', `There is no calendar "${id}".`);
  await revokeOpen(tx, { ...whose, id });
}

export async function revokeOpen(tx: Tx, whose: Whose & { readonly id?: string }): Promise<void> {
  await tx.calendarLink.updateMany({
    where: { ...whose, revokedAt: null },
    data: { revokedAt: new Date() },
  });
}

/** Of whom a calendar is asked for. */
export interface Reader {
  readonly id: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly accountId: string | null;
}

export const findReader = (tx: Tx, yardId: string, id: string): Promise<Reader | null> =>
  tx.member.findUnique({
    where: { yardId_id: { yardId, id } },
    select: { id: true, name: true, roles: true, accountId: true },
  });

export const findSpaceName = async (tx: Tx, yardId: string, id: string): Promise<string | null> => {
  const where = { yardId_id: { yardId, id } };
  const row = await tx.space.findUnique({ where, select: { name: true } });
  return row?.name ?? null;
};

function show({ member, kind, ...row }: Row): Calendar {
  return {
    id: row.id,
    personId: row.memberId,
    person: member.name,
    kind: Calendar.schema.shape.kind.parse(kind),
    spaceId: row.spaceId,
    name: row.name,
    state: row.revokedAt === null ? 'open' : 'revoked',
    createdAt: row.createdAt.toISOString(),
    lastReadAt: row.lastReadAt?.toISOString() ?? null,
    revokedAt: row.revokedAt?.toISOString() ?? null,
  };
}
