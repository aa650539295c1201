import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { type ReadChange, readAudit } from '#persistence/audit/read.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { AuditEntry, AuditFilter } from './audit.contract.ts';

/** Who changed what, and when. Nothing is ever written here: the database does that by itself. */
@Injectable()
export class AuditService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, filter: AuditFilter, page: PageRequest): Promise<Page<AuditEntry>> {
    const from = momentOf(filter.from);
    const to = momentOf(filter.to);
    if (from && to && from > to)
      throw refused('to', filter.to, 'lies before from', 'Swap the two.');
    const before = page.after === undefined ? null : numberOf(page.after);
    return this.database.inYard(viewer, async (tx) => {
      const take = page.first + 1;
      const found = await readAudit(tx, viewer.yardId, { ...filter, from, to }, { take, before });
      const shown = found.slice(0, page.first);
      const last = shown.at(-1);
      const names = await namesOf(tx, viewer.yardId, shown);
      return {
        items: shown.map((change) => show(change, names)),
        nextCursor: found.length > page.first && last ? cursorOf(last.number) : null,
      };
    });
  }
}

/** Those that did it, as they are called now. */
async function namesOf(
  tx: Tx,
  yardId: string,
  changes: readonly ReadChange[],
): Promise<ReadonlyMap<string, string>> {
  const ids = new Set(changes.flatMap(({ memberId }) => memberId ?? []));
  const members = await tx.member.findMany({
    where: { yardId, id: { in: [...ids] } },
    select: { id: true, name: true },
  });
  return new Map(members.map(({ id, name }) => [id, name]));
}

function show(
  { number, at, memberId, change, record, key, fields, hash }: ReadChange,
  names: ReadonlyMap<string, string>,
): AuditEntry {
  return {
    id: String(number),
    at: at.toISOString(),
    byMemberId: memberId,
    byName: memberId === null ? null : (names.get(memberId) ?? null),
    change,
    record,
    key: JSON.stringify(key),
    fields: fields.map(({ name, before, after }) => ({
      name,
      before: jsonOf(before),
      after: jsonOf(after),
    })),
    hash: Buffer.from(hash).toString('hex'),
  };
}

const jsonOf = (value: unknown): string | null =>
  value === undefined ? null : JSON.stringify(value);

/** The database knows years from 1 to 9999 in four digits; nothing changed before 1970 in any case. */
function momentOf(text: string | undefined): Date | undefined {
  if (text === undefined) return undefined;
  return new Date(Math.min(Math.max(Date.parse(text), 0), Date.UTC(9999, 0)));
}

const cursorOf = (number: bigint): string =>
  Buffer.from(`n${String(number)}`).toString('base64url');

function numberOf(cursor: string): bigint {
  const digits = /^n(\d{1,18})$/.exec(Buffer.from(cursor, 'base64url').toString())?.[1];
  if (digits !== undefined) return BigInt(digits);
  const cure = 'Use the nextCursor of the page before, or leave it out.';
  throw refused('after', cursor, 'not a cursor of this list', cure);
}

function refused(path: string, value: unknown, message: string, cure: string): DomainError {
  const wrong = fault('input.field', path, message, { value, cure });
  return new DomainError('input.field', `${path}: ${message}`, { cure, faults: [wrong] });
}
