import type { Transaction } from '#persistence/client.ts';
import type { TestDatabase } from './database.ts';

/**
 * After a test has changed rows of a yard past the service: the log says so, as it would of any
 * change, and whoever keeps the yard in memory reads it anew.
 */
export const planted = ({ owner }: TestDatabase, yardId: string): Promise<void> =>
  appendPlanted(owner, yardId);

/** The same in the transaction that changed them. */
export async function appendPlanted(
  { event }: Pick<Transaction, 'event'>,
  yardId: string,
): Promise<void> {
  await event.create({
    data: { yardId, kind: 'planted', subject: 'yard', subjectId: yardId },
  });
}
