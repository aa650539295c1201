import type { Transaction } from '../client.ts';
import { readSheet } from './sheet.ts';

/**
 * What the published plan says of the boats of whoever entered the yard, and of no other: without
 * crew unless the yard shows it, without money, ranks and reasons. Null where none is published.
 */
export async function loadOwnSheet(tx: Transaction): Promise<ReturnType<typeof readSheet> | null> {
  const rows = await tx.$queryRaw<{ sheet: unknown }[]>`SELECT own_published_sheet() AS sheet`;
  const sheet = rows.at(0)?.sheet ?? null;
  return sheet === null ? null : readSheet(sheet);
}
