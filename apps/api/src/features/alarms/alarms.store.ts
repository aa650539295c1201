import { DomainError, fault } from '#kernel/error.ts';
import { alarmKindSchema } from '#live/alarms/kinds.ts';
import type { Prisma } from '#persistence/generated/client.ts';
import { isoOf } from '#persistence/rows.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { Alarm, RungAlarm } from './alarms.contract.ts';
import { rungFor, rungKind } from './rung.ts';

const details = { receipts: true } as const satisfies Prisma.AlarmInclude;
type Row = Prisma.AlarmGetPayload<{ include: typeof details }>;

/** Where a page ends: what is acknowledged comes after what is not, older after newer. */
interface Place {
  readonly acknowledged: boolean;
  readonly rungAt: Date;
  readonly id: string;
}

/** Those of the viewer, or everybody's. */
export async function listAlarms(
  tx: Tx,
  { yardId, memberId }: Viewer,
  all: boolean,
  { first, after }: PageRequest,
): Promise<Page<Alarm>> {
  const from = after === undefined ? null : placeOf(after);
  const places = await tx.$queryRaw<Place[]>`
    SELECT id, acknowledged, rung_at AS "rungAt" FROM (
      SELECT a.id, a.rung_at, r.acknowledged_at IS NOT NULL AS acknowledged
      FROM alarm a LEFT JOIN alarm_receipt r
        ON r.yard_id = a.yard_id AND r.alarm_id = a.id AND r.member_id = ${memberId}
      WHERE a.yard_id = ${yardId} AND a.state = 'rung' AND (${all} OR ${memberId} = ANY (a.audience))
    ) listed
    WHERE ${from === null}
       OR acknowledged > ${from?.acknowledged ?? false}
       OR (acknowledged = ${from?.acknowledged ?? false}
           AND (rung_at, id) < (${from?.rungAt ?? new Date(0)}, ${from?.id ?? noId}::uuid))
    ORDER BY acknowledged, rung_at DESC, id DESC LIMIT ${first + 1}`;
  const shown = places.slice(0, first);
  const rows = await tx.alarm.findMany({
    where: { yardId, id: { in: shown.map(({ id }) => id) } },
    include: details,
  });
  const byId = new Map(rows.map((row) => [row.id, row]));
  const names = await namesOf(tx, yardId, rows);
  const last = shown.at(-1);
  return {
    items: shown.flatMap(({ id }) => {
      const row = byId.get(id);
      return row === undefined ? [] : [show(row, names, memberId)];
    }),
    nextCursor: places.length > first && last ? cursorOf(last) : null,
  };
}

const noId = '00000000-0000-0000-0000-000000000000';

const cursorOf = ({ acknowledged, rungAt, id }: Place): string =>
  Buffer.from(`${acknowledged ? 'a' : 'n'}${String(rungAt.getTime())}:${id}`).toString('base64url');

function placeOf(cursor: string): Place {
  const text = Buffer.from(cursor, 'base64url').toString();
  const found = /^([an])(\d{1,15}):([0-9a-f-]{36})$/.exec(text);
  if (found && isUuid(found[3])) {
    const [, state, time, id] = found;
    return { acknowledged: state === 'a', rungAt: new Date(Number(time)), id };
  }
  const wrong = fault('input.field', 'after', 'not a cursor of this list', {
    value: cursor,
    cure: 'Use the nextCursor of the page before, or leave it out.',
  });
  throw new DomainError('input.field', `after: ${wrong.message}`, { faults: [wrong] });
}

/** One that rang for the viewer, void since or not; the foreman reads all. Throws record.missing. */
export async function findAlarm(tx: Tx, viewer: Viewer, id: string): Promise<Alarm> {
  const { yardId, memberId, roles } = viewer;
  const row = isUuid(id)
    ? await tx.alarm.findFirst({ where: { yardId, id, rungAt: { not: null } }, include: details })
    : null;
  if (!row || !(roles.includes('foreman') || row.audience.includes(memberId))) {
    throw new DomainError('record.missing', `There is no alarm "${id}".`);
  }
  return show(row, await namesOf(tx, yardId, [row]), memberId);
}

/** Whether this was the first time; an alarm that was acknowledged has been shown. */
export async function markShown(
  tx: Tx,
  { yardId, memberId }: Viewer,
  alarmId: string,
): Promise<boolean> {
  const changed = await tx.$executeRaw`
    INSERT INTO alarm_receipt AS r (yard_id, alarm_id, member_id, shown_at)
    VALUES (${yardId}, ${alarmId}::uuid, ${memberId}, now())
    ON CONFLICT (yard_id, alarm_id, member_id) DO UPDATE SET shown_at = now()
      WHERE r.shown_at IS NULL`;
  return changed === 1;
}

/** Whether this was the first time. */
export async function markAcknowledged(
  tx: Tx,
  { yardId, memberId }: Viewer,
  alarmId: string,
): Promise<boolean> {
  const changed = await tx.$executeRaw`
    INSERT INTO alarm_receipt AS r (yard_id, alarm_id, member_id, shown_at, acknowledged_at)
    VALUES (${yardId}, ${alarmId}::uuid, ${memberId}, now(), now())
    ON CONFLICT (yard_id, alarm_id, member_id)
      DO UPDATE SET acknowledged_at = now(), shown_at = coalesce(r.shown_at, now())
      WHERE r.acknowledged_at IS NULL`;
  return changed === 1;
}

/** So long after it rang an alarm is no news any more. */
const newsMs = 24 * 3_600_000;

/** What rang for the viewer lately without being shown, in order, up to the event `until`. */
export async function unseenAlarms(
  tx: Tx,
  { yardId, memberId }: Viewer,
  until: bigint,
): Promise<RungAlarm[]> {
  const unseen = await tx.alarm.findMany({
    where: {
      yardId,
      state: 'rung',
      audience: { has: memberId },
      rungAt: { gt: new Date(Date.now() - newsMs) },
      receipts: { none: { memberId, shownAt: { not: null } } },
    },
    select: { id: true },
  });
  const events = await tx.event.findMany({
    where: {
      yardId,
      kind: rungKind,
      subject: 'alarm',
      subjectId: { in: unseen.map(({ id }) => id) },
      id: { lte: until },
    },
    orderBy: { id: 'asc' },
  });
  return events.flatMap((event) => rungFor(event, memberId) ?? []);
}

async function namesOf(
  tx: Tx,
  yardId: string,
  rows: readonly Row[],
): Promise<ReadonlyMap<string, string>> {
  const ids = [...new Set(rows.flatMap(({ audience }) => audience))];
  const members = await tx.member.findMany({
    where: { yardId, id: { in: ids } },
    select: { id: true, name: true },
  });
  return new Map(members.map(({ id, name }) => [id, name]));
}

const isoOrNull = (at: Date | null | undefined): string | null => (at ? isoOf(at) : null);

function show(row: Row, names: ReadonlyMap<string, string>, memberId: string): Alarm {
  const receipts = new Map(row.receipts.map((receipt) => [receipt.memberId, receipt]));
  const mine = receipts.get(memberId);
  return {
    id: row.id,
    kind: alarmKindSchema.parse(row.kind),
    taskId: row.taskId,
    words: row.words,
    dueAt: isoOf(row.dueAt),
    rungAt: isoOf(row.rungAt ?? row.dueAt),
    shownAt: isoOrNull(mine?.shownAt),
    acknowledgedAt: isoOrNull(mine?.acknowledgedAt),
    audience: row.audience.flatMap((id) => {
      const name = names.get(id);
      if (name === undefined) return [];
      const receipt = receipts.get(id);
      return [
        {
          id,
          name,
          shownAt: isoOrNull(receipt?.shownAt),
          acknowledgedAt: isoOrNull(receipt?.acknowledgedAt),
        },
      ];
    }),
  };
}
