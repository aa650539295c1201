import { inYard, service } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { lapseIfDue } from '#persistence/live/lapse.ts';
import type { ClaimLapseJob } from '#persistence/queue/claim-lapse.ts';

/** Frees a task that was claimed and not begun in time; one that was begun, or given back, is left alone. */
export async function lapseClaim(
  prisma: PrismaClient,
  { yardId, taskId }: ClaimLapseJob,
): Promise<void> {
  await inYard(prisma, service(yardId), (tx) => lapseIfDue(tx, yardId, taskId, new Date()));
}
