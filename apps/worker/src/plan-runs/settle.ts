import { inYard, service } from '#persistence/client.ts';
import type { PlanRun, Prisma, PrismaClient } from '#persistence/generated/client.ts';
import { savePlan } from '#persistence/plan/store.ts';
import { asJson } from '#persistence/rows.ts';
import { appendRunEvent } from '#persistence/run/events.ts';
import { engineVersion } from './engine-version.ts';
import type { Outcome } from './outcome.ts';
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
      data: { status: outcome.status, finishedAt: new Date(), ...columnsOf(outcome) },
    });
    const row = ended.at(0);
    if (row === undefined) return false;
    const planId = await planOf(outcome, (plan) =>
      savePlan(tx, { ...plan, yardId, runId: id, engineVersion }),
    );
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

function columnsOf(outcome: Outcome): Prisma.PlanRunUncheckedUpdateManyInput {
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

type Planned = Extract<Outcome, { readonly sheet: object }>;

function lastProgress({ compiled, result }: Planned): Prisma.PlanRunUncheckedUpdateManyInput {
  return {
    ...progressOf(compiled.problem, { ...result, done: true }),
    firstPlanMs: result.firstPlanMs,
  };
}

type PlanParts = Pick<Parameters<typeof savePlan>[1], 'problem' | 'map' | 'result' | 'sheet'>;

async function planOf(
  outcome: Outcome,
  save: (plan: PlanParts) => Promise<string>,
): Promise<string | null> {
  if (outcome.status !== 'finished' && outcome.status !== 'stopped') return null;
  if (outcome.sheet === null) return null;
  const { compiled, result, sheet } = outcome;
  return save({ problem: compiled.problem, map: compiled.map, result, sheet });
}
