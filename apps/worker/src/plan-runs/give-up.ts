import { inYard, service } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { type PlanRunJob, planRunQueue } from '#persistence/queue/plan-runs.ts';
import { appendRunEvent } from '#persistence/run/events.ts';

/** Ends a run that no worker brought to an end, so that nobody waits for it any longer. */
export async function giveUpRun(
  prisma: PrismaClient,
  { yardId, runId }: PlanRunJob,
): Promise<void> {
  await inYard(prisma, service(yardId), async (tx) => {
    const tries = String(planRunQueue.retryLimit + 1);
    const ended = await tx.planRun.updateManyAndReturn({
      where: { yardId, id: runId, status: { in: ['queued', 'running'] } },
      data: {
        status: 'failed',
        finishedAt: new Date(),
        error: `The worker did not come to an end with it in ${tries} tries.`,
      },
    });
    for (const row of ended) {
      await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null });
    }
  });
}
