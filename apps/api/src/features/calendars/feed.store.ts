import { z } from 'zod';
import { calendarEntrySchema, type CalendarItem } from '#live/calendar/entry.ts';
import type { OwnGround } from '#live/calendar/owner-entries.ts';
import { loadOwnSheet } from '#persistence/plan/own-sheet.ts';
import { inOrder } from '#persistence/rows.ts';
import type { Tx } from '../../platform/database/database.ts';

const keptItemSchema = z.object({ entry: calendarEntrySchema });

/**
 * A link while one reader at a time goes by it, from before the yard is read: of two who ask at once
 * the second finds what the first has said, and nothing older is said after something newer.
 */
export interface HeldLink {
  readonly name: string;
  readonly createdAt: Date;
  readonly yard: string;
}

/** Null: it has ended since it was looked up. */
export async function holdLink(tx: Tx, yardId: string, linkId: string): Promise<HeldLink | null> {
  const rows = await tx.$queryRaw<HeldLink[]>`
    SELECT c.name, c.created_at AS "createdAt", y.name AS yard
    FROM calendar_link c JOIN yard y ON y.id = c.yard_id
    WHERE c.yard_id = ${yardId} AND c.id = ${linkId}::uuid AND c.revoked_at IS NULL
    FOR UPDATE OF c`;
  return rows.at(0) ?? null;
}

export async function loadItems(tx: Tx, yardId: string, linkId: string): Promise<CalendarItem[]> {
  const rows = await tx.calendarItem.findMany({ where: { yardId, linkId } });
  return rows.map(({ uid, mark, sequence, entry, cancelled, changedAt }) => ({
    ...{ uid, mark, sequence, cancelled },
    ...keptItemSchema.parse({ entry }),
    changedAt: changedAt.toISOString(),
  }));
}

/** In one statement, since a new plan may change each of thousands. */
export async function saveItems(
  tx: Tx,
  yardId: string,
  linkId: string,
  items: readonly CalendarItem[],
): Promise<void> {
  if (items.length === 0) return;
  const rows = JSON.stringify(
    items.map(({ changedAt, ...item }) => ({ ...item, changed_at: changedAt })),
  );
  await tx.$executeRaw`
    INSERT INTO calendar_item (yard_id, link_id, uid, mark, sequence, entry, cancelled, changed_at)
    SELECT ${yardId}, ${linkId}::uuid, i.uid, i.mark, i.sequence, i.entry, i.cancelled, i.changed_at
    FROM jsonb_to_recordset(${rows}::jsonb)
      AS i (uid text, mark text, sequence int, entry jsonb, cancelled boolean, changed_at timestamptz)
    ON CONFLICT (yard_id, link_id, uid) DO UPDATE
    SET mark = excluded.mark, sequence = excluded.sequence, entry = excluded.entry,
        cancelled = excluded.cancelled, changed_at = excluded.changed_at`;
}

export const zoneOf = async (tx: Tx, yardId: string): Promise<string> => {
  const where = { id: yardId };
  const { timeZone } = await tx.yard.findUniqueOrThrow({ where, select: { timeZone: true } });
  return timeZone;
};

/** The boats of one owner as the second wall shows them. */
export async function ownGround(tx: Tx, yardId: string, ownerId: string): Promise<OwnGround> {
  const boats = await tx.boat.findMany({
    where: { yardId, ownerId },
    ...inOrder,
    include: {
      refits: {
        ...inOrder,
        include: {
          parts: { ...inOrder, select: { id: true, name: true } },
          tasks: {
            ...inOrder,
            select: {
              id: true,
              name: true,
              partId: true,
              state: true,
              skillId: true,
              startedAt: true,
              finishedAt: true,
              replacesId: true,
            },
          },
        },
      },
    },
  });
  return {
    zone: await zoneOf(tx, yardId),
    refits: boats.flatMap((boat) =>
      boat.refits.map(({ id, name, promised, parts, tasks }) => ({
        ...{ id, name, promised, parts, tasks },
        boat: boat.name,
      })),
    ),
    sheet: await loadOwnSheet(tx),
  };
}
