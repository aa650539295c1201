import { z } from 'zod';
import type { Transaction } from '../client.ts';
import { readSheet } from './sheet.ts';

/** What was published last on a day, as the owner of a boat reads it. */
export interface OwnPublishing {
  readonly publishedAt: Date;
  /** Of the own boats alone, as `loadOwnSheet` has it. */
  readonly sheet: ReturnType<typeof readSheet>;
  /** Why the yard planned anew on that day, as far as it is about the own boats. */
  readonly causes: readonly string[];
  /** There were other reasons, which are not told. */
  readonly others: boolean;
}

const lines = z.array(z.string());

/** Each day's since the moment, and before them the last of the time until then, if there was one. */
export async function loadOwnPublishings(tx: Transaction, since: Date): Promise<OwnPublishing[]> {
  const rows = await tx.$queryRaw<
    { publishedAt: Date; sheet: unknown; causes: unknown; others: boolean }[]
  >`
    SELECT published_at AS "publishedAt", sheet, causes, others FROM own_publishings(${since})`;
  return rows.map(({ sheet, causes, ...row }) => ({
    ...row,
    sheet: readSheet(sheet),
    causes: lines.parse(causes),
  }));
}
