import { createHash } from 'node:crypto';

/** One row of the audit as its hash covers it; JSON as PostgreSQL prints `jsonb`. */
export interface ChainedRow {
  /** The yard's id, or empty for the accounts. */
  readonly chain: string;
  readonly number: bigint;
  readonly at: Date;
  readonly accountId: string | null;
  readonly memberId: string | null;
  readonly change: string;
  readonly record: string;
  readonly key: string;
  readonly before: string | null;
  readonly after: string | null;
}

const format = 'curewright-audit-1';

/** Length before text, so that no two rows have the same fields: octets of UTF-8, or `-` for null. */
const field = (text: string | null): string =>
  text === null ? '-' : `${String(Buffer.byteLength(text))}:${text}`;

/**
 * SHA-256 (FIPS 180-4) over the hash of the row before (null at the first) and the row's canonical
 * text. What `audit_hash` does in the database, written apart from it to check it.
 */
export function hashOfRow(previous: Uint8Array | null, row: ChainedRow): Buffer {
  const fields = [
    row.chain,
    String(row.number),
    row.at.toISOString(),
    row.accountId,
    row.memberId,
    row.change,
    row.record,
    row.key,
    row.before,
    row.after,
  ];
  const hash = createHash('sha256');
  if (previous !== null) hash.update(previous);
  return hash.update([format, ...fields.map(field)].join('\n'), 'utf8').digest();
}
