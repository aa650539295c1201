import { z } from 'zod';

/** Counts the changes of a record; an update names the one it was made from. */
export const revision = z
  .int()
  .min(1)
  .describe('Counts the changes of the record; the ETag in REST.');

/** The record without what the database counts. */
export function withoutRevision<T extends { readonly revision: number }>({
  revision: _revision,
  ...record
}: T): Omit<T, 'revision'> {
  return record;
}
