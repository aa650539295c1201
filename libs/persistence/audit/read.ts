import { isDeepStrictEqual } from 'node:util';
import type { Transaction } from '../client.ts';
import { Prisma } from '../generated/client.ts';
import { type AuditChange, auditChangeSchema, type AuditRecord } from './records.ts';
import { recordOf, tableOf, wordOf } from './records.ts';

/** Which changes; each that is left out says nothing. */
export interface AuditFilter {
  readonly record?: AuditRecord | undefined;
  /** A record's id, or any part of a key of several. */
  readonly key?: string | undefined;
  /** Who. */
  readonly member?: string | undefined;
  readonly change?: AuditChange | undefined;
  /** Then or later. */
  readonly from?: Date | undefined;
  /** Before then. */
  readonly to?: Date | undefined;
}

/** Values are JSON. */
type Values = Readonly<Record<string, unknown>>;

export interface ReadChange {
  readonly number: bigint;
  readonly at: Date;
  readonly memberId: string | null;
  readonly change: AuditChange;
  readonly record: AuditRecord;
  readonly key: Values;
  /** What differs, all of it where the record came or went; `undefined` where there was none. */
  readonly fields: readonly {
    readonly name: string;
    readonly before: unknown;
    readonly after: unknown;
  }[];
  readonly hash: Uint8Array;
}

interface Row {
  readonly number: bigint;
  readonly at: Date;
  readonly member_id: string | null;
  readonly change: string;
  readonly record: string;
  readonly key: Values;
  readonly before: Values | null;
  readonly after: Values | null;
  readonly hash: Uint8Array;
}

/** A yard's changes, newest first: at most `take` of those before the number `before`. */
export async function readAudit(
  tx: Transaction,
  yardId: string,
  filter: AuditFilter,
  { take, before }: { readonly take: number; readonly before: bigint | null },
): Promise<readonly ReadChange[]> {
  const { record, key, member, change, from, to } = filter;
  const wanted = [
    Prisma.sql`chain = ${yardId}`,
    before === null ? null : Prisma.sql`number < ${before}`,
    record === undefined ? null : Prisma.sql`record = ${tableOf(record)}`,
    key === undefined
      ? null
      : Prisma.sql`jsonb_path_exists(key, '$.* ? (@ == $part)', jsonb_build_object('part', ${key}::text))`,
    member === undefined ? null : Prisma.sql`member_id = ${member}`,
    change === undefined ? null : Prisma.sql`change = ${change}`,
    from === undefined ? null : Prisma.sql`at >= ${from}`,
    to === undefined ? null : Prisma.sql`at < ${to}`,
  ].filter((condition) => condition !== null);
  const rows = await tx.$queryRaw<Row[]>`
    SELECT number, at, member_id, change, record, key, before, after, hash FROM audit
    WHERE ${Prisma.join(wanted, ' AND ')} ORDER BY number DESC LIMIT ${take}`;
  return rows.map((row) => ({
    number: row.number,
    at: row.at,
    memberId: row.member_id,
    change: auditChangeSchema.parse(row.change),
    record: recordOf(row.record),
    key: inWords(row.key),
    fields: differences(row.before ?? {}, row.after ?? {}),
    hash: row.hash,
  }));
}

const inWords = (row: Values): Values =>
  Object.fromEntries(Object.entries(row).map(([column, value]) => [wordOf(column), value]));

function differences(before: Values, after: Values): ReadChange['fields'] {
  const columns = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return columns
    .filter((column) => !isDeepStrictEqual(before[column], after[column]))
    .map((column) => ({
      name: wordOf(column),
      before: before[column],
      after: after[column],
    }));
}
