import { DomainError } from '#kernel/error.ts';
import { reportCommandSchema, type ReportCommand } from '#live/reports/commands.ts';
import { Prisma } from '#persistence/generated/client.ts';
import { asJson, asJsonOrNull } from '#persistence/rows.ts';
import type { Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import { newestArgs, toNewestPage } from '../../platform/paging/newest.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { Claim } from '../work/work.service.ts';
import {
  outcomeSchema,
  type Outcome,
  type Reasons,
  reasonsSchema,
  type Report,
  type ReportsFilter,
} from './reports.contract.ts';

const details = { member: true } as const satisfies Prisma.ReportInclude;
type Row = Prisma.ReportGetPayload<{ include: typeof details }>;

/** A report that has been understood, with the moment at which it really was. */
export interface Understood {
  readonly id: string;
  readonly key: string;
  readonly command: ReportCommand;
  readonly phoneAt: Date;
  readonly phoneSentAt: Date | null;
  readonly at: Date;
}

export interface Became {
  readonly outcome: Outcome;
  readonly reasons: Reasons;
  readonly claim: Claim | null;
}

export async function insertReport(
  tx: Tx,
  yardId: string,
  memberId: string,
  { command, ...report }: Understood,
  { outcome, reasons, claim }: Became,
): Promise<Report> {
  const { kind, ...input } = command;
  const row = await tx.report.create({
    data: {
      ...report,
      yardId,
      memberId,
      kind,
      input: asJson(input),
      outcome,
      reason: reasons,
      answer: asJsonOrNull(claim),
    },
    include: details,
  });
  return show(row);
}

/** What a member's phone has told under a key; null: nothing yet. */
export async function findByKey(
  tx: Tx,
  yardId: string,
  memberId: string,
  key: string,
): Promise<Report | null> {
  const row = await tx.report.findUnique({
    where: { yardId_memberId_key: { yardId, memberId, key } },
    include: details,
  });
  return row && show(row);
}

export async function findReport(tx: Tx, yardId: string, id: string): Promise<Report> {
  const row = isUuid(id)
    ? await tx.report.findUnique({ where: { yardId_id: { yardId, id } }, include: details })
    : null;
  if (!row) throw new DomainError('record.missing', `There is no report "${id}".`);
  return show(row);
}

/** The latest to arrive first. */
export async function listReports(
  tx: Tx,
  yardId: string,
  { outcome, member }: ReportsFilter,
  page: PageRequest,
): Promise<Page<Report>> {
  const { where, take } = newestArgs(page);
  const [older] = where.OR ?? [];
  const rows = await tx.report.findMany({
    where: {
      yardId,
      ...(outcome === undefined ? {} : { outcome }),
      ...(member === undefined ? {} : { memberId: member }),
      ...(older === undefined || where.OR === undefined
        ? {}
        : {
            OR: [
              { receivedAt: older.createdAt },
              { receivedAt: where.OR[1].createdAt, id: where.OR[1].id },
            ],
          }),
    },
    orderBy: [{ receivedAt: 'desc' }, { id: 'desc' }],
    take,
    include: details,
  });
  const dated = rows.map((row) => ({ ...row, createdAt: row.receivedAt }));
  return toNewestPage(dated, page, show);
}

/**
 * Those whose reasons may pass, in the order in which they were: ids; the last to arrive where they
 * are more than `most`. Not one that takes back the last report: by then that is another.
 */
export async function heldIds(
  tx: Tx,
  yardId: string,
  passing: readonly string[],
  most: number,
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT id FROM (
      SELECT id, at, received_at FROM report
      WHERE yard_id = ${yardId} AND outcome = 'held' AND kind <> 'undo'
        AND reason->0->>'code' = ANY (${[...passing]})
      ORDER BY received_at DESC, id LIMIT ${most}) AS latest
    ORDER BY at, received_at, id`;
  return rows.map(({ id }) => id);
}

/**
 * The last that a member's phone told of a task until a moment of its clock, where that is held; null
 * where it, or something later of theirs, has been carried out.
 */
export async function heldBefore(
  tx: Tx,
  { yardId, memberId }: { readonly yardId: string; readonly memberId: string },
  taskId: string,
  phoneAt: Date,
): Promise<string | null> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT r.id FROM report r
    WHERE r.yard_id = ${yardId} AND r.member_id = ${memberId} AND r.outcome = 'held'
      AND r.kind <> 'undo' AND r.input->>'taskId' = ${taskId} AND r.phone_at <= ${phoneAt}
      AND NOT EXISTS (
        SELECT FROM event e
        WHERE e.yard_id = r.yard_id AND e.subject = 'task' AND e.subject_id = ${taskId}
          AND e.by_member_id = r.member_id AND e.kind <> 'task-undone'
          AND (e.payload->>'at')::timestamptz > r.at)
    ORDER BY r.phone_at DESC, r.received_at DESC LIMIT 1`;
  return rows.at(0)?.id ?? null;
}

/**
 * Holds a report until the transaction ends, if it is held and nobody else is at it; `wait`: waits
 * for whoever is. Null: it is not to be had.
 */
export async function lockHeld(
  tx: Tx,
  yardId: string,
  id: string,
  wait: boolean,
): Promise<Report | null> {
  if (!isUuid(id)) return null;
  const others = wait ? Prisma.empty : Prisma.sql`SKIP LOCKED`;
  const locked = await tx.$queryRaw<unknown[]>`
    SELECT 1 FROM report
    WHERE yard_id = ${yardId} AND id = ${id}::uuid AND outcome = 'held'
    FOR UPDATE ${others}`;
  return locked.length === 0 ? null : findReport(tx, yardId, id);
}

export async function updateReport(
  tx: Tx,
  yardId: string,
  id: string,
  data: Prisma.ReportUncheckedUpdateInput,
): Promise<Report> {
  const where = { yardId_id: { yardId, id } };
  return show(await tx.report.update({ where, data, include: details }));
}

const show = (row: Row): Report => ({
  id: row.id,
  key: row.key,
  member: { id: row.member.id, name: row.member.name },
  command: reportCommandSchema.parse({ ...Object(row.input), kind: row.kind }),
  phoneAt: row.phoneAt.toISOString(),
  phoneSentAt: row.phoneSentAt?.toISOString() ?? null,
  receivedAt: row.receivedAt.toISOString(),
  at: row.at.toISOString(),
  outcome: outcomeSchema.parse(row.outcome),
  reasons: reasonsSchema.parse(row.reason),
  // What an older release kept may lack what a claim has since got.
  claim: Claim.schema.safeParse(row.answer).data ?? null,
  settledById: row.settledById,
  settledAt: row.settledAt?.toISOString() ?? null,
  note: row.note,
  revision: row.revision,
});
