import { fromPrisma, type PgBoss } from 'pg-boss';
import type { Difference } from '#live/difference/difference.ts';
import { disturbingKinds, reasonOf } from '#live/disturbance/kinds.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { PlanRun, Prisma, PrismaClient } from '#persistence/generated/client.ts';
import type { YardStates } from '#persistence/live/yard-states.ts';
import {
  appendCandidateEvent,
  causeSchema,
  confirmCandidate,
  offerCandidate,
  openCandidate,
  withdrawCandidate,
} from '#persistence/plan/candidates.ts';
import { sinceOffered } from '#persistence/plan/moved-on.ts';
import { publish } from '#persistence/plan/publish.ts';
import { replanQueue } from '#persistence/queue/replans.ts';
import { asJson } from '#persistence/rows.ts';
import { appendRunEvent } from '#persistence/run/events.ts';
import {
  type Enqueue,
  isFirstStage,
  mergedCause,
  othersPending,
  requestLonger,
  requestReplan,
} from '#persistence/run/replans.ts';
import type { WhyNot } from '#persistence/run/why.ts';
import { lockWork } from '#persistence/workload/store.ts';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Outcome, Planned } from '../outcome.ts';
import { columnsOf, savePlanOf } from '../settle.ts';
import { decide } from './decide.ts';
import { giveUpWindow } from './hopeless-window.ts';
import type { TakenReplan } from './take-up-replan.ts';

/** How the planning of a run for what happened ended. */
export type Ended =
  /** Nothing has to be planned anew; `open`: the candidate that was found to stand. */
  | { readonly kind: 'quiet'; readonly why: string; readonly open: string | null }
  /** Without a plan. */
  | { readonly kind: 'outcome'; readonly outcome: Outcome }
  | {
      readonly kind: 'planned';
      readonly outcome: Planned;
      /** Against the published plan. */
      readonly difference: Difference;
      readonly baseStands: Plan | null;
      readonly openStands: Plan | null;
      /** Fixed starts that had passed. */
      readonly passed: readonly string[];
    };

interface Surroundings {
  readonly prisma: PrismaClient;
  readonly states: YardStates;
  readonly boss: PgBoss;
}

/** A plan of thousands of tasks is written in one go. */
const settleMs = 60_000;

type PlannedEnd = Extract<Ended, { readonly kind: 'planned' }>;

/** A queue of jobs that are part of the transaction. */
export const enqueueReplan =
  (boss: PgBoss, tx: Transaction): Enqueue =>
  async (job, startAfter) => {
    const options = { id: job.runId, ...(startAfter === null ? {} : { startAfter }) };
    await boss.send(replanQueue.name, job, { ...options, db: fromPrisma(tx) });
  };

/**
 * Ends the run, with what becomes of its plan, in one transaction; says that in a word. Null where
 * this try is no longer the run's.
 */
export function settleReplan(
  { prisma, states, boss }: Surroundings,
  taken: TakenReplan,
  ended: Ended,
): Promise<string | null> {
  const { run } = taken;
  return inYard(
    prisma,
    service(run.yardId),
    async (tx) => {
      const enqueue = enqueueReplan(boss, tx);
      switch (ended.kind) {
        case 'outcome':
          return endWithout(tx, states, taken, ended.outcome, enqueue);
        case 'quiet':
          return endQuietly(tx, taken, ended);
        case 'planned':
          return endPlanned(tx, states, taken, ended, enqueue);
      }
    },
    { timeout: settleMs },
  );
}

type Columns = Prisma.PlanRunUncheckedUpdateManyInput;

/** The run's row as it is then; null where it is another try's. */
async function end(tx: Transaction, run: PlanRun, data: Columns): Promise<PlanRun | null> {
  const { yardId, id, attempts } = run;
  const rows = await tx.planRun.updateManyAndReturn({
    where: { yardId, id, attempts, status: 'running' },
    data: { ...data, finishedAt: new Date() },
  });
  return rows.at(0) ?? null;
}

async function endRun(
  tx: Transaction,
  run: PlanRun,
  status: Outcome['status'],
  columns: Columns,
): Promise<string | null> {
  const row = await end(tx, run, { ...columns, status });
  if (row === null) return null;
  await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null });
  return status;
}

/**
 * Where the time was too short for any plan, it is given longer; where windows are in the way that
 * no plan can keep, one is given up, from which a run of its own follows.
 */
async function endWithout(
  tx: Transaction,
  states: YardStates,
  taken: TakenReplan,
  outcome: Outcome,
  enqueue: Enqueue,
): Promise<string | null> {
  const { run } = taken;
  const { status } = outcome;
  const row = await end(tx, run, { ...columnsOf(outcome), status });
  if (row === null) return null;
  const hopeless = outcome.status === 'infeasible' ? outcome.hopeless : [];
  if (hopeless.length > 0 && (await overtaken(tx, taken)) === null) {
    // From here on nobody reports work until this is committed.
    await lockWork(tx, run.yardId);
    if (await hasMovedOn(tx, taken)) {
      await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null });
      await requestAgain(tx, row, enqueue);
      return status;
    }
    const state = await states.at(tx, run.yardId);
    const tell = await giveUpWindow(tx, state, hopeless, run.notBefore ?? new Date());
    await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null });
    await tell?.();
    return tell === null ? status : 'a window is given up';
  }
  await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null });
  const short = outcome.status === 'failed' && outcome.why === null && isFirstStage(run);
  if (short) await requestLonger(tx, run, enqueue);
  return status;
}

/** What was done, or what there is to plan with; air that is read all the time lets there be no plan. */
const freeing = disturbingKinds.filter(
  (kind) => reasonOf(kind) !== 'weather' && kind !== 'alarm-rung',
);

/** Whether something has happened since the yard was read that may let there be a plan after all. */
async function hasMovedOn(tx: Transaction, { run, state }: TakenReplan): Promise<boolean> {
  const { yardId } = run;
  const since = { yardId, id: { gt: state.eventId }, kind: { in: freeing } };
  return (await tx.event.findFirst({ where: since, select: { id: true } })) !== null;
}

const because = (why: string): Columns => {
  const lines: WhyNot = { lines: [why], faults: [] };
  return { infeasibility: asJson(lines) };
};

async function endQuietly(
  tx: Transaction,
  { run, state }: TakenReplan,
  { why, open }: Extract<Ended, { readonly kind: 'quiet' }>,
): Promise<string | null> {
  const row = await end(tx, run, { ...because(why), status: 'finished' });
  if (row === null) return null;
  if (open !== null) {
    await confirmCandidate(tx, { yardId: run.yardId, planId: open }, state.eventId);
  }
  await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null });
  return 'nothing to plan anew';
}

/** Why a plan is not even looked at: something newer is being planned, or the foreman wants none. */
async function overtaken(tx: Transaction, { run }: TakenReplan): Promise<string | null> {
  const { yardId, createdAt } = run;
  const { stopRequestedAt } = await tx.planRun.findUniqueOrThrow({
    where: { yardId_id: { yardId, id: run.id } },
    select: { stopRequestedAt: true },
  });
  if (stopRequestedAt !== null && (await othersPending(tx, run, { after: createdAt })) > 0)
    return 'Something else has happened: it is planned anew with that.';
  const discarded = await tx.candidate.findFirst({
    where: { yardId, state: 'discarded', decidedAt: { gt: createdAt } },
    select: { planId: true },
  });
  if (discarded !== null && !isFirstStage(run))
    return 'The foreman has discarded what was found first.';
  return null;
}

/** Another plan may know as little of what happened as the one before: it is held against that. */
async function isRebased(tx: Transaction, { run, base }: TakenReplan): Promise<boolean> {
  const { yardId } = run;
  const published = await tx.publishedPlan.findUnique({ where: { yardId } });
  return published?.planId !== base?.planId;
}

async function endPlanned(
  tx: Transaction,
  states: YardStates,
  taken: TakenReplan,
  ended: PlannedEnd,
  enqueue: Enqueue,
): Promise<string | null> {
  const { run, open, newRecords } = taken;
  const { outcome } = ended;
  const isFirst = isFirstStage(run);
  const asked = run.requestedById !== null;
  const late = await overtaken(tx, taken);
  if (late !== null) return endRun(tx, run, 'stopped', because(late));
  if (await isRebased(tx, taken)) {
    const why = 'Another plan was published meanwhile, and is looked at in its place.';
    const became = await endRun(tx, run, 'stopped', because(why));
    if (became !== null) await requestAgain(tx, run, enqueue);
    return became;
  }
  const decision = decide(
    {
      plan: outcome.plan,
      tolerances: outcome.compiled.problem.tolerances,
      difference: ended.difference,
    },
    {
      base: ended.baseStands,
      open: open === null ? null : { standing: ended.openStands },
      asked,
    },
  );
  const columns = columnsOf(outcome);
  if (decision.kind !== 'offer') {
    const row = await end(tx, run, {
      ...columns,
      ...because(decision.why),
      status: outcome.status,
    });
    if (row === null) return null;
    if (decision.kind === 'withdraw') await withdrawCandidate(tx, run.yardId);
    else if (open !== null) {
      await confirmCandidate(tx, { yardId: run.yardId, planId: open.planId }, taken.state.eventId);
    }
    await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null });
    if (isFirst && (newRecords || asked)) await requestLonger(tx, row, enqueue);
    return 'nothing worth a change';
  }
  const row = await end(tx, run, { ...columns, status: outcome.status });
  if (row === null) return null;
  const planId = await savePlanOf(tx, run, outcome);
  if (planId === null) throw new Error(`The run ${run.id} was planned without a plan`);
  // From here on nobody reports work or publishes until this is committed.
  await lockWork(tx, run.yardId);
  if (await isRebased(tx, taken)) {
    await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null, planId });
    await requestAgain(tx, row, enqueue);
    return row.status;
  }
  const became = await offer(tx, states, taken, ended, row, planId);
  const searchesOn = isFirst && became === 'offered' && outcome.result.status !== 'optimal';
  if (searchesOn) await requestLonger(tx, row, enqueue);
  return became;
}

/** The same for the plan that is published by now. */
async function requestAgain(tx: Transaction, run: PlanRun, enqueue: Enqueue): Promise<void> {
  const { yardId, requestedById, cause } = run;
  const again = { yardId, requestedById, cause: causeSchema.parse(cause), now: new Date() };
  await requestReplan(tx, again, enqueue);
}

/** Offers the plan; publishes it where the yard allows that and nothing has happened since. */
async function offer(
  tx: Transaction,
  states: YardStates,
  { run, state, base }: TakenReplan,
  { outcome, difference, passed }: PlannedEnd,
  row: PlanRun,
  planId: string,
): Promise<'offered' | 'published'> {
  const { yardId } = run;
  if (base === null) throw new Error('There is no candidate without a published plan');
  const { publishMovesUpTo } = await tx.yard.findUniqueOrThrow({
    where: { id: yardId },
    select: { publishMovesUpTo: true },
  });
  const { moved } = difference;
  const automatic =
    run.requestedById === null && publishMovesUpTo !== null && moved <= publishMovesUpTo;
  const before = await openCandidate(tx, yardId);
  const cause = mergedCause(
    causeSchema.parse(before?.cause ?? []),
    causeSchema.parse(row.cause),
    passed,
  );
  const offered = { yardId, basePlanId: base.planId, readEventId: state.eventId };
  const since = automatic
    ? await sinceOffered(
        tx,
        { ...offered, sheet: outcome.sheet },
        await states.at(tx, yardId),
        new Date(),
      )
    : [];
  await offerCandidate(tx, {
    ...offered,
    planId,
    moved,
    disturbance: outcome.plan.values[3],
    cause,
  });
  await appendRunEvent(tx, row, { kind: 'plan-run-ended', memberId: null, planId });
  await appendCandidateEvent(tx, {
    yardId,
    planId,
    kind: 'candidate-made',
    memberId: null,
    payload: { basePlanId: base.planId, moved, cause, words: difference.words.slice(0, 20) },
  });
  if (!automatic || since.length > 0) return 'offered';
  await publish(tx, { yardId, planId, memberId: null });
  return 'published';
}
