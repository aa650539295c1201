import type { Rule } from '#access/rule.ts';
import type { DomainError } from '#kernel/error.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { PlanRun, Prisma, PrismaClient } from '#persistence/generated/client.ts';
import { lastEventId } from '#persistence/live/yard-state.ts';
import { loadPublished } from '#persistence/plan/published.ts';
import type { PlanRunJob } from '#persistence/queue/plan-runs.ts';
import { asJson } from '#persistence/rows.ts';
import { appendRunEvent } from '#persistence/run/events.ts';
import type { WhyNot } from '#persistence/run/why.ts';
import { loadWorkload } from '#persistence/workload/store.ts';
import { loadYard } from '#persistence/yard/store.ts';
import type { PublishedPlan } from '#planning/compile/work/published.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { refusalOfRequester } from './requester.ts';

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
 * Marks the run as running and reads its yard, all of one moment. Null where there is nothing to
 * do: somebody stopped it in the queue, a worker ended it and died before it told the queue, or
 * whoever asked for it may not by now, with which it has just ended.
 */
export async function takeUp(
  prisma: PrismaClient,
  job: PlanRunJob,
  rule: Pick<Rule, 'may'>,
): Promise<TakenRun | null> {
  const { yardId } = job;
  const run = await inYard(prisma, service(yardId), (tx) => markRunning(tx, job, rule));
  if (run?.status !== 'running') return null;
  // Apart from the writing, whose audit must see the rows that others commit meanwhile.
  return inYard(
    prisma,
    service(yardId),
    async (tx) => {
      // First: what is read after it may know more, never less.
      const readEventId = await lastEventId(tx, yardId);
      const yard = await loadYard(tx, yardId);
      const workload = await loadWorkload(tx, yardId);
      const published = await loadPublished(tx, yardId);
      return { run: { ...run, readEventId }, yard, workload, published };
    },
    { isolationLevel: 'RepeatableRead' },
  );
}

/** Null, or not running: there is nothing to do, for whatever reason (see `takeUp`). */
export async function markRunning(
  tx: Transaction,
  job: PlanRunJob,
  rule: Pick<Rule, 'may'>,
): Promise<PlanRun | undefined> {
  const refusal = await refusalOfRequester(tx, job, rule);
  const taken = await tx.planRun.updateManyAndReturn({
    where: { yardId: job.yardId, id: job.runId, status: { in: ['queued', 'running'] } },
    data: refusal === null ? running() : refused(refusal),
  });
  const run = taken.at(0);
  if (run === undefined) return undefined;
  const kind = refusal === null ? 'plan-run-started' : 'plan-run-ended';
  await appendRunEvent(tx, run, { kind, memberId: null });
  return run;
}

const running = (): Prisma.PlanRunUncheckedUpdateManyInput => ({
  ...noProgress,
  status: 'running',
  startedAt: new Date(),
  attempts: { increment: 1 },
});

function refused({ code, message, cure }: DomainError): Prisma.PlanRunUncheckedUpdateManyInput {
  const why: WhyNot = { lines: [], faults: [{ code, path: '', message, cure }] };
  return {
    status: 'failed',
    finishedAt: new Date(),
    error: message,
    infeasibility: asJson(why),
  };
}
