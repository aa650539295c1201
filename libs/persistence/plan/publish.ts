import type { Transaction } from '../client.ts';
import type { PublishedPlan } from '../generated/client.ts';
import { settleCandidates } from './candidates.ts';

interface Publishing {
  readonly yardId: string;
  readonly planId: string;
  /** Null: automatically. */
  readonly memberId: string | null;
}

/**
 * Makes the plan the one that the yard works to: the row, the history, what becomes of candidates,
 * and the event, in this order. Whether it may be published is the caller's to know.
 */
export async function publish(
  tx: Transaction,
  { yardId, planId, memberId }: Publishing,
): Promise<PublishedPlan> {
  const publishedAt = new Date();
  const now = { planId, publishedById: memberId, publishedAt };
  const row = await tx.publishedPlan.upsert({
    where: { yardId },
    create: { yardId, ...now },
    update: now,
  });
  await tx.publishing.create({ data: { yardId, ...now } });
  await settleCandidates(tx, { yardId, planId, memberId, at: publishedAt });
  await tx.event.create({
    data: {
      yardId,
      byMemberId: memberId,
      kind: 'plan-published',
      subject: 'plan',
      subjectId: planId,
      payload: { automatic: memberId === null },
    },
  });
  return row;
}
