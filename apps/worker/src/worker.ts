import { pushKeys } from '#host/push-keys.ts';
import { keepThread } from '#host/threads/kept.ts';
import { createClient } from '#persistence/client.ts';
import { YardStates } from '#persistence/live/yard-states.ts';
import { alarmQueue, pushQueue } from '#persistence/queue/alarms.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { type ClaimLapseJob, claimLapseQueue } from '#persistence/queue/claim-lapse.ts';
import { type PlanRunJob, planRunQueue } from '#persistence/queue/plan-runs.ts';
import { priceQueue } from '#persistence/queue/price.ts';
import { replanQueue } from '#persistence/queue/replans.ts';
import { assertSecondWall } from '#persistence/reach.ts';
import { ring, type RingSurroundings } from './alarms/ring.ts';
import { startSweep } from './alarms/sweep.ts';
import { workOnAlarms, workOnPushes } from './alarms/work.ts';
import { lapseClaim } from './claims/lapse.ts';
import type { Config } from './config.ts';
import { inBursts, inTurn } from './each-of.ts';
import { armAlarms } from './follower/arm-alarms.ts';
import { startFollower } from './follower/follow.ts';
import { missedWindows } from './follower/missed-windows.ts';
import { replan } from './follower/replan.ts';
import { jobRules } from './job-rules.ts';
import { giveUpRun } from './plan-runs/give-up.ts';
import { handlePlanRun } from './plan-runs/handle.ts';
import { workOnPrices } from './pricing/handle.ts';
import { workOnReplans } from './plan-runs/replan/work.ts';
import { queues } from './queues.ts';

export interface WorkerOptions extends Config {
  /** Where a line about what happens goes. */
  readonly say: (line: string) => void;
}

export interface Worker {
  /** Gives runs in hand back to the queue and lets go of the database. */
  stop(): Promise<void>;
}

/** pg-boss looks no more often. */
const pollSeconds = 0.5;
/** A thread is told to stop within milliseconds; the rest is writing down that it was. */
const stopMs = 8_000;
/** A plan and its rows are written in one go; nobody waits at a screen for it. */
const statementMs = 45_000;
/** Beside the runs: rounds of the follower, alarms, notifications, the sweep, leases. */
const otherConnections = 8;

/** What follows from an event, in this order: a plan is made of the work as it is by then. */
const steps = [
  { name: 'missed windows', take: missedWindows, first: true },
  { name: 'alarms', take: armAlarms },
  { name: 'replanning', take: replan },
];

/** Takes jobs from the queue of the database at `databaseUrl`, and follows the logs of its yards. */
export async function startWorker({
  databaseUrl,
  concurrency,
  threads,
  memoryMB,
  priceEffort,
  secretKey,
  pushContact,
  pushToLocal,
  say,
}: WorkerOptions): Promise<Worker> {
  const rules = jobRules(queues);
  await assertSecondWall(databaseUrl);
  const prisma = createClient(databaseUrl, {
    connections: concurrency + otherConnections,
    statementMs,
  });
  const states = new YardStates(databaseUrl, { statementMs });
  const shutdown = new AbortController();
  const standBy = keepThread(memoryMB, threads);
  const boss = createBoss(databaseUrl, {
    role: 'worker',
    onError: (error) => say(`queue: ${error.message}`),
  });
  const closing: (() => Promise<void>)[] = [];
  const close = async (): Promise<void> => {
    await Promise.all([
      // First: what is given back now is not to be taken up again here.
      boss.stop({ graceful: true, timeout: stopMs }),
      ...closing.map((end) => end()),
    ]);
    await Promise.all([prisma.$disconnect(), states.close(), standBy.end()]);
  };
  try {
    await boss.start();
    await boss.work<PlanRunJob>(
      planRunQueue.name,
      {
        pollingIntervalSeconds: pollSeconds,
        heartbeatRefreshSeconds: 3,
        localConcurrency: concurrency,
      },
      async ([job]) => {
        const rule = rules[planRunQueue.name];
        const signal = shutdown.signal;
        await handlePlanRun({ prisma, say, shutdown: signal, threads, memoryMB, rule }, job);
      },
    );
    await workOnReplans(boss, {
      ...{ prisma, states, boss, say, threads, memoryMB, standBy },
      shutdown: shutdown.signal,
      rule: rules[replanQueue.name],
    });
    await boss.work<PlanRunJob>(
      planRunQueue.givenUp,
      { pollingIntervalSeconds: pollSeconds },
      async ([job]) => giveUpRun(prisma, job.data),
    );
    await boss.work<ClaimLapseJob>(claimLapseQueue.name, inBursts, (jobs) =>
      inTurn(jobs, (data) => lapseClaim(prisma, data)),
    );
    const pricing = { prisma, say, shutdown: shutdown.signal, threads, memoryMB };
    const rule = rules[priceQueue.name];
    await workOnPrices(boss, { ...pricing, iterations: priceEffort, rule });
    const ringing: RingSurroundings = {
      prisma,
      boss,
      states,
      say,
      rule: rules[alarmQueue.name],
      missedWindows,
    };
    await workOnAlarms(boss, ringing);
    await workOnPushes(boss, {
      prisma,
      boss,
      say,
      keys: pushKeys(secretKey),
      contact: pushContact,
      toLocal: pushToLocal,
      rule: rules[pushQueue.name],
    });
    const sweep = startSweep({ prisma, boss, say, ring: (job) => ring(ringing, job) });
    closing.push(() => sweep.stop());
    const follower = await startFollower({ databaseUrl, prisma, states, boss, steps, say });
    closing.push(() => follower.stop());
  } catch (error) {
    await close();
    throw error;
  }
  return {
    stop: () => {
      const closed = close();
      shutdown.abort();
      return closed;
    },
  };
}
