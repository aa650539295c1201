import type { Transaction } from '../client.ts';

/** Events after which there is other work to be done in the yard than before, or by another promise. */
const kinds = [
  'change-accepted',
  'rework-made',
  'rework-undone',
  'part-added',
  'part-changed',
  'part-removed',
  'refit-added',
  'refit-changed',
  'refit-removed',
  'boat-added',
  'boat-removed',
  'job-added',
  'job-removed',
];

/**
 * The last event since which what there is to be done in the yard is as it is now, of those after `since`;
 * null: it has not changed. Work that goes on changes nothing of that.
 */
export async function lastChangeOfWork(
  tx: Transaction,
  yardId: string,
  since: bigint,
): Promise<bigint | null> {
  const found = await tx.event.findFirst({
    where: { yardId, id: { gt: since }, kind: { in: kinds } },
    orderBy: { id: 'desc' },
    select: { id: true },
  });
  return found?.id ?? null;
}
