import type { Client } from 'pg';
import { type ChainedRow, hashOfRow } from './chain.ts';

/** The newest row of a chain: noted elsewhere, it shows later whether the end was cut off. */
export interface Head {
  readonly number: bigint;
  /** Hex, 64 digits. */
  readonly hash: string;
}

/** The first row that does not fit. */
export type Fault =
  /** No row has the number; the next one that there is has `next`. */
  | { readonly kind: 'missing'; readonly number: bigint; readonly next: bigint }
  /** What the row says, or the hash before it, is not what its hash was made of. */
  | { readonly kind: 'changed'; readonly number: bigint; readonly row: ChainedRow };

export interface Verdict {
  /** How many rows fit, from the first on. */
  readonly rows: bigint;
  /** The newest of those; null for none. */
  readonly head: Head | null;
  readonly fault: Fault | null;
  /** The number of the row that has the hash asked for; null where none of those that fit has it. */
  readonly found: bigint | null;
}

const pageSize = 1000;

/**
 * Reads a chain from its first row in pages and makes every hash anew. `owner` sees all rows.
 * `head`: a hash noted before, in hex, to be looked for.
 */
export async function verifyChain(
  owner: Client,
  chain: string,
  head: string | null = null,
): Promise<Verdict> {
  let last: Head | null = null;
  let previous: Buffer | null = null;
  let found: bigint | null = null;
  for (;;) {
    const at = last?.number ?? 0n;
    const verdict = { rows: at, head: last, found };
    const page = await readPage(owner, chain, at);
    if (page.length === 0) return { ...verdict, fault: null };
    for (const { row, yardId, hash } of page) {
      const { number } = row;
      const soFar: Verdict = { rows: last?.number ?? 0n, head: last, found, fault: null };
      const due = soFar.rows + 1n;
      if (number !== due)
        return { ...soFar, fault: { kind: 'missing', number: due, next: number } };
      const fits = (yardId ?? '') === chain && hashOfRow(previous, row).equals(hash);
      if (!fits) return { ...soFar, fault: { kind: 'changed', number, row } };
      last = { number, hash: hash.toString('hex') };
      previous = hash;
      if (last.hash === head) found = number;
    }
  }
}

/** Null for a chain without a row. */
export async function headOf(owner: Client, chain: string): Promise<Head | null> {
  const { rows } = await owner.query<{ number: string; hash: Buffer }>(
    'SELECT number, hash FROM audit WHERE chain = $1 ORDER BY number DESC LIMIT 1',
    [chain],
  );
  const row = rows.at(0);
  return row ? { number: BigInt(row.number), hash: row.hash.toString('hex') } : null;
}

/** Every chain that there should be: the accounts' (empty), and those of all yards, in order. */
export async function chainsOf(owner: Client): Promise<readonly string[]> {
  const { rows } = await owner.query<{ chain: string }>(
    `SELECT '' AS chain UNION SELECT id FROM yard UNION SELECT DISTINCT chain FROM audit
     ORDER BY chain`,
  );
  return rows.map(({ chain }) => chain);
}

interface Stored {
  readonly number: string;
  readonly yard_id: string | null;
  readonly at: Date;
  readonly account_id: string | null;
  readonly member_id: string | null;
  readonly change: string;
  readonly record: string;
  readonly key: string;
  readonly before: string | null;
  readonly after: string | null;
  readonly hash: Buffer;
}

async function readPage(
  owner: Client,
  chain: string,
  after: bigint,
): Promise<{ row: ChainedRow; yardId: string | null; hash: Buffer }[]> {
  const { rows } = await owner.query<Stored>(
    `SELECT number, yard_id, at, account_id, member_id, change, record,
            key::text AS key, before::text AS before, after::text AS after, hash
     FROM audit WHERE chain = $1 AND number > $2 ORDER BY number LIMIT $3`,
    [chain, String(after), pageSize],
  );
  return rows.map(({ yard_id: yardId, account_id: accountId, member_id: memberId, ...same }) => {
    const { number, hash, ...rest } = same;
    return { row: { ...rest, chain, number: BigInt(number), accountId, memberId }, yardId, hash };
  });
}
