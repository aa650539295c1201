import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { PlanRun, Prisma, PrismaClient } from '#persistence/generated/client.ts';
import { savePlan } from '#persistence/plan/store.ts';
import { asJson } from '#persistence/rows.ts';
import { appendRunEvent } from '#persistence/run/events.ts';
import { engineVersion } from './engine-version.ts';
import type { Outcome, Planned } from './outcome.ts';
import { progressOf } from './progress.ts';

/**
 * Ends the run with its plan, in one transaction. False where this try is no longer the run's:
 * another worker took it over, and only the last one's word counts, so a run has one result.
 */
export function settle(prisma: PrismaClient, run: PlanRun, outcome: Outcome): Promise<boolean> {
  const { yardId, id, attempts } = run;
  return inYard(prisma, service(yardId), async (tx) => {
    const ended = await tx.planRun.updateManyAndReturn({
      where: { yardId, id, attempts, status: 'running' },
      data: {
        status: outcome.status,
        finishedAt: new Date(),
        readEventId: run.readEventId,
        ...columnsOf(outcome),
      },
    });
    const row = ended.at(0);
    if (row === undefined) return false;
    const planId = await savePlanOf(tx, run, outcome);
    await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null, planId });
    return true;
  });
}

/** Back into the queue, for another worker: this process ends. */
export async function giveBack(prisma: PrismaClient, run: PlanRun): Promise<void> {
  const { yardId, id, attempts } = run;
  await inYard(prisma, service(yardId), async (tx) => {
    const returned = await tx.planRun.updateManyAndReturn({
      where: { yardId, id, attempts, status: 'running' },
      data: { status: 'queued' },
    });
    for (const row of returned) {
      await appendRunEvent(tx, row, { kind: 'plan-run-returned', memberId: null });
    }
  });
}

/** What the run's row says of its end. */
export function columnsOf(outcome: Outcome): Prisma.PlanRunUncheckedUpdateManyInput {
  switch (outcome.status) {
    case 'failed':
      return {
        error: outcome.error,
        ...(outcome.why === null ? {} : { infeasibility: asJson(outcome.why) }),
      };
    case 'infeasible':
      return { infeasibility: asJson(outcome.why) };
    case 'finished':
    case 'stopped':
      return outcome.sheet === null ? {} : lastProgress(outcome);
  }
}

function lastProgress({ compiled, result }: Planned): Prisma.PlanRunUncheckedUpdateManyInput {
  return {
    ...progressOf(compiled.problem, { ...result, done: true }),
    firstPlanMs: result.firstPlanMs,
  };
}

/** The id of the plan that it ended with, which is stored with this; null where there is none. */
export async function savePlanOf(
  tx: Transaction,
  { yardId, id }: PlanRun,
  outcome: Outcome,
): Promise<string | null> {
  if (outcome.status !== 'finished' && outcome.status !== 'stopped') return null;
  if (outcome.sheet === null) return null;
  const { compiled, result, sheet } = outcome;
  const { problem, map } = compiled;
  return savePlan(tx, { yardId, runId: id, problem, map, result, sheet, engineVersion });
}
