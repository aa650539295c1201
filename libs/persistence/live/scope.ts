import type { Transaction } from '../client.ts';

/** Events after which there is other work to be done in the yard than before. */
const kinds = [
  'change-accepted',
  'rework-made',
  'rework-undone',
  'part-added',
  'part-changed',
  'part-removed',
  'refit-added',
  'refit-removed',
  'boat-added',
  'boat-removed',
  'job-added',
  'job-removed',
];

/** Whether what there is to be done in the yard has changed since the event; work that goes on has not. */
export async function hasChangedWork(
  tx: Transaction,
  yardId: string,
  since: bigint,
): Promise<boolean> {
  const found = await tx.event.findFirst({
    where: { yardId, id: { gt: since }, kind: { in: kinds } },
    select: { id: true },
  });
  return found !== null;
}
