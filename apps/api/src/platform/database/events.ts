import type { Prisma } from '#persistence/generated/client.ts';
import type { Viewer } from '../access/viewer.ts';
import type { Tx } from './database.ts';

/**
 * Writes what happened into the yard's log, in the transaction of the change itself; readers of
 * the log are told once it is committed. `kind` says it in a word, `part-changed` say.
 */
export async function appendEvent(
  tx: Tx,
  { yardId, memberId }: Pick<Viewer, 'yardId' | 'memberId'>,
  kind: string,
  subject: string,
  subjectId: string,
  payload: Prisma.InputJsonObject = {},
): Promise<void> {
  await tx.event.create({
    data: { yardId, byMemberId: memberId, kind, subject, subjectId, payload },
  });
}
