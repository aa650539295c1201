import { setTimeout as sleep } from 'node:timers/promises';
import type { Rule } from '#access/rule.ts';
import { disturbingKinds, reasonOf } from '#live/disturbance/kinds.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { PlanRun, PrismaClient } from '#persistence/generated/client.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import type { YardStates } from '#persistence/live/yard-states.ts';
import { openCandidate } from '#persistence/plan/candidates.ts';
import { loadPlaced } from '#persistence/plan/placed.ts';
import { readSheet } from '#persistence/plan/sheet.ts';
import type { PlanRunJob } from '#persistence/queue/plan-runs.ts';
import { lastRead, othersPending } from '#persistence/run/replans.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import { markRunning } from '../take-up.ts';
import type { Placed } from './standing-plan.ts';

/** A plan that people work to, or that waits to be decided. */
export interface KnownPlan extends Placed {
  readonly planId: string;
  readonly sheet: PlanSheet;
}

/** A run for what happened, with the yard as it was read. */
export interface TakenReplan {
  readonly run: PlanRun;
  readonly state: YardState;
  /** What people have been told; null where no plan is published. */
  readonly base: KnownPlan | null;
  /** What the foreman is offered, made against the same. */
  readonly open: KnownPlan | null;
  /** Whether anything but work and weather happened: then more may be possible than before. */
  readonly newRecords: boolean;
}

/** Another run of the yard has been told to end; longer than that it is not waited for. */
const mostWaitMs = 3000;
const lookMs = 50;

/** One at a time in a yard. */
async function waitForOthers(prisma: PrismaClient, { yardId, runId }: PlanRunJob): Promise<void> {
  const until = Date.now() + mostWaitMs;
  const running = (): Promise<number> =>
    inYard(prisma, service(yardId), (tx) =>
      othersPending(tx, { yardId, id: runId }, { status: 'running' }),
    );
  while ((await running()) > 0 && Date.now() < until) await sleep(lookMs);
}

/** As `takeUp`, for a run of what happened: of the published plan, and of what is offered, as well. */
export async function takeUpReplan(
  prisma: PrismaClient,
  states: YardStates,
  job: PlanRunJob,
  rule: Pick<Rule, 'may'>,
): Promise<TakenReplan | null> {
  const { yardId } = job;
  await waitForOthers(prisma, job);
  const run = await inYard(prisma, service(yardId), (tx) => markRunning(tx, job, rule));
  if (run?.status !== 'running') return null;
  return inYard(prisma, service(yardId), async (tx) => {
    const state = await states.at(tx, yardId);
    const { planId, sheet, eventId } = state;
    const base = planId === null || sheet === null ? null : await known(tx, yardId, planId, sheet);
    const open = base === null ? null : await offered(tx, yardId, base);
    const newRecords = await hasNewRecords(tx, run, eventId);
    // Last, so that nobody waits for the row meanwhile.
    await tx.planRun.updateMany({
      where: { yardId, id: run.id, attempts: run.attempts },
      data: { readEventId: eventId },
    });
    return { run, state, base, open, newRecords };
  });
}

async function known(
  tx: Transaction,
  yardId: string,
  planId: string,
  sheet: PlanSheet,
): Promise<KnownPlan> {
  return { planId, sheet, placed: await loadPlaced(tx, yardId, planId), taken: sheet.choices };
}

async function offered(
  tx: Transaction,
  yardId: string,
  base: KnownPlan,
): Promise<KnownPlan | null> {
  const row = await openCandidate(tx, yardId);
  if (row?.basePlanId !== base.planId) return null;
  const { planId } = row;
  const { sheet } = await tx.plan.findUniqueOrThrow({
    where: { yardId_id: { yardId, id: planId } },
    select: { sheet: true },
  });
  return known(tx, yardId, planId, readSheet(sheet));
}

const ofRecords = disturbingKinds.filter((kind) => reasonOf(kind) === 'records');

async function hasNewRecords(tx: Transaction, run: PlanRun, eventId: bigint): Promise<boolean> {
  const found = await tx.event.findFirst({
    where: {
      yardId: run.yardId,
      id: { gt: await lastRead(tx, run), lte: eventId },
      kind: { in: ofRecords },
    },
    select: { id: true },
  });
  return found !== null;
}
