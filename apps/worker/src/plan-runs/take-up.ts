import { inYard } from '#persistence/client.ts';
import type { PlanRun, PrismaClient } from '#persistence/generated/client.ts';
import { loadPublished } from '#persistence/plan/published.ts';
import type { PlanRunJob } from '#persistence/queue/plan-runs.ts';
import { appendRunEvent } from '#persistence/run/events.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import { loadYard } from '#persistence/yard/store.ts';
import type { PublishedPlan } from '#planning/compile/work/published.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';

/** A run in hand, with the yard as it stood when the run was taken up. */
export interface TakenRun {
  /** `attempts` tells this try from any other: writes of an older one meet no row. */
  readonly run: PlanRun;
  readonly yard: Yard;
  readonly workload: Workload;
  /** What people have been told; null where no plan is published. */
  readonly published: PublishedPlan | null;
}

/** Of a try before, which died; this one begins anew. */
const noProgress = {
  iterationsDone: 0,
  bestLateness: null,
  bestFinishes: null,
  bestMoney: null,
  bestDisturbance: null,
  boundLateness: null,
  boundFinishes: null,
  boundMoney: null,
  boundDisturbance: null,
  gap: null,
  bestFinishAt: null,
} as const;

/**
 * Marks the run as running and reads its yard, all of one moment. Null where the run has ended:
 * somebody stopped it in the queue, or a worker ended it and died before it told the queue.
 */
export function takeUp(
  prisma: PrismaClient,
  { yardId, runId }: PlanRunJob,
): Promise<TakenRun | null> {
  return inYard(
    prisma,
    { yardId, personId: null },
    async (tx) => {
      const taken = await tx.planRun.updateManyAndReturn({
        where: { yardId, id: runId, status: { in: ['queued', 'running'] } },
        data: {
          ...noProgress,
          status: 'running',
          startedAt: new Date(),
          attempts: { increment: 1 },
        },
      });
      const run = taken.at(0);
      if (run === undefined) return null;
      const yard = await loadYard(tx, yardId);
      const workload = await loadWorkload(tx, yardId);
      const published = await loadPublished(tx, yardId);
      await appendRunEvent(tx, run, { kind: 'plan-run-started', memberId: null });
      return { run, yard, workload, published };
    },
    { isolationLevel: 'RepeatableRead' },
  );
}
