import type { Transaction } from '../client.ts';
import type { PlanRun, Prisma } from '../generated/client.ts';
import { causeSchema } from '../plan/candidates.ts';
import { asJson } from '../rows.ts';
import type { PlanRunJob } from '../queue/plan-runs.ts';
import { appendRunEvent } from './events.ts';
import { usualStart } from './usual-start.ts';

/**
 * Searched so long at most for the first candidate; it ends `FIRST_PLAN_MS` after it began if there
 * is a plan by then, else with the first plan: with all around it, it is there within two seconds.
 */
const FIRST_SECONDS = 5;
export const FIRST_PLAN_MS = 400;
/** And so long for a better one. */
const LONGER_SECONDS = 20;

/** Between two of a yard that begin at once; what happens within it goes together. */
const restMs = 1000;
/** More would not be read. */
const mostCauses = 50;

export const isFirstStage = ({ seconds }: Pick<PlanRun, 'seconds'>): boolean =>
  seconds !== null && seconds <= FIRST_SECONDS;

/** Puts the run's job into the queue, with the transaction; not before `startAfter`. */
export type Enqueue = (job: PlanRunJob, startAfter: Date | null) => Promise<void>;

export interface Replan {
  readonly yardId: string;
  /** What happened, a sentence each. */
  readonly cause: readonly string[];
  /** Null: nobody asked, something happened. */
  readonly requestedById: string | null;
  readonly now: Date;
}

/** Causes of before and of now, each once; the latest are kept. */
export const mergedCause = (...causes: readonly (readonly string[])[]): string[] =>
  [...new Set(causes.flat())].slice(-mostCauses);

const pending = (yardId: string): Prisma.PlanRunWhereInput => ({
  yardId,
  purpose: 'disturbance',
  status: { in: ['queued', 'running'] },
});

/** Its rows that nobody else is writing at this moment: whoever follows the log waits for none of them. */
function lockPending(tx: Transaction, yardId: string): Promise<{ id: string }[]> {
  return tx.$queryRaw<{ id: string }[]>`
    SELECT id FROM plan_run
    WHERE yard_id = ${yardId} AND purpose = 'disturbance' AND status IN ('queued', 'running')
    FOR UPDATE SKIP LOCKED`;
}

/**
 * Whether the run gives way: a long search does, and a first one unless it stands in for one that
 * gave way before; else a yard in which something happens each second would never see a candidate.
 */
async function givesWay(tx: Transaction, run: PlanRun): Promise<boolean> {
  if (run.stopRequestedAt !== null) return false;
  if (!isFirstStage(run)) return true;
  const before = await tx.planRun.findFirst({
    where: {
      yardId: run.yardId,
      purpose: 'disturbance',
      createdAt: { lt: run.createdAt },
    },
    orderBy: { createdAt: 'desc' },
    select: { status: true },
  });
  return before?.status !== 'stopped';
}

/**
 * Asks for a plan that knows what happened. A run that waits in the queue takes the cause in, for it
 * has yet to read the yard; one under way is told to end. Returns the run that will know.
 */
export async function requestReplan(
  tx: Transaction,
  replan: Replan,
  enqueue: Enqueue,
): Promise<PlanRun> {
  const { yardId, requestedById, now } = replan;
  const free = new Set((await lockPending(tx, yardId)).map(({ id }) => id));
  const runs = await tx.planRun.findMany({
    where: pending(yardId),
    orderBy: { createdAt: 'asc' },
  });
  const waiting = runs.find(({ id, status }) => status === 'queued' && free.has(id));
  if (waiting !== undefined) {
    const cause = mergedCause(causeSchema.parse(waiting.cause), replan.cause);
    return tx.planRun.update({
      where: { yardId_id: { yardId, id: waiting.id } },
      data: { cause: asJson(cause), ...(requestedById === null ? {} : { requestedById }) },
    });
  }
  const carried: string[] = [];
  for (const run of runs) {
    if (!free.has(run.id) || !(await givesWay(tx, run))) continue;
    carried.push(...causeSchema.parse(run.cause));
    await tx.planRun.update({
      where: { yardId_id: { yardId, id: run.id } },
      data: { stopRequestedAt: now },
    });
  }
  const last = await tx.planRun.findFirst({
    where: { yardId, purpose: 'disturbance', seconds: { lte: FIRST_SECONDS } },
    orderBy: { createdAt: 'desc' },
    select: { createdAt: true, status: true, cause: true },
  });
  // What a run that came to nothing was to answer is still to be answered.
  if (last?.status === 'failed' || last?.status === 'infeasible') {
    carried.unshift(...causeSchema.parse(last.cause));
  }
  const rest = last === null ? 0 : last.createdAt.getTime() + restMs - now.getTime();
  return addRun(tx, {
    ...replan,
    cause: mergedCause(carried, replan.cause),
    seconds: FIRST_SECONDS,
    enqueue: (job) => enqueue(job, rest > 0 ? new Date(now.getTime() + rest) : null),
  });
}

interface NewRun extends Replan {
  readonly seconds: number;
  readonly enqueue: (job: PlanRunJob) => Promise<void>;
}

async function addRun(tx: Transaction, run: NewRun): Promise<PlanRun> {
  const { yardId, cause, requestedById, now, seconds, enqueue } = run;
  const row = await tx.planRun.create({
    data: {
      yardId,
      purpose: 'disturbance',
      cause: asJson(cause),
      requestedById,
      seed: 1,
      seconds,
      notBefore: await usualStart(tx, yardId, now),
    },
  });
  await enqueue({ yardId, runId: row.id });
  await appendRunEvent(tx, row, { kind: 'plan-run-queued', memberId: requestedById });
  return row;
}

/** The second stage of a run whose first has found a candidate, or that nothing came of in a moment. */
export async function requestLonger(
  tx: Transaction,
  { yardId, cause, requestedById }: PlanRun,
  enqueue: Enqueue,
): Promise<void> {
  await addRun(tx, {
    yardId,
    cause: causeSchema.parse(cause),
    requestedById,
    now: new Date(),
    seconds: LONGER_SECONDS,
    enqueue: (job) => enqueue(job, null),
  });
}

/** Runs of the yard for what happened that began, or wait, beside or after this one. */
export const othersPending = (
  tx: Transaction,
  { yardId, id }: Pick<PlanRun, 'yardId' | 'id'>,
  which: { readonly status?: 'running'; readonly after?: Date },
): Promise<number> =>
  tx.planRun.count({
    where: {
      ...pending(yardId),
      id: { not: id },
      ...(which.status === undefined ? {} : { status: which.status }),
      ...(which.after === undefined ? {} : { createdAt: { gt: which.after } }),
    },
  });

/**
 * The last event that the yard's runs for what happened have read, this one aside and those that
 * were stopped; 0 where none has.
 */
export async function lastRead(
  tx: Transaction,
  { yardId, id }: Pick<PlanRun, 'yardId' | 'id'>,
): Promise<bigint> {
  const { _max } = await tx.planRun.aggregate({
    where: { yardId, purpose: 'disturbance', id: { not: id }, status: { not: 'stopped' } },
    _max: { readEventId: true },
  });
  return _max.readEventId ?? 0n;
}

/** What a run for what happened has read the yard with, or will: events up to this are known to it. */
export async function readByNow(tx: Transaction, yardId: string): Promise<bigint> {
  const { _max } = await tx.planRun.aggregate({
    where: { yardId, purpose: 'disturbance' },
    _max: { readEventId: true },
  });
  return _max.readEventId ?? 0n;
}

/** Ends what is still searched for something better; what it has found is not offered. */
export async function stopLonger(tx: Transaction, yardId: string, now: Date): Promise<void> {
  await tx.planRun.updateMany({
    where: { ...pending(yardId), seconds: { gt: FIRST_SECONDS }, stopRequestedAt: null },
    data: { stopRequestedAt: now },
  });
}
