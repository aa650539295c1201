import type { Job, PgBoss } from 'pg-boss';
import type { Rule } from '#access/rule.ts';
import { DomainError } from '#kernel/error.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { type PriceJob, priceQueue } from '#persistence/queue/price.ts';
import { planBoth, type Planner } from './plan-both.ts';
import { type Priced, settle } from './settle.ts';
import { NoPrice, takeUp } from './take-up.ts';

export interface PricingSurroundings extends Pick<
  Planner,
  'say' | 'iterations' | 'threads' | 'memoryMB'
> {
  readonly prisma: PrismaClient;
  /** Aborted when this process is to end. */
  readonly shutdown: AbortSignal;
  /** Who may have something priced, by the table of access. */
  readonly rule: Pick<Rule, 'may'>;
}

/**
 * Of each search at most. A difference between plans that were searched for by the clock would be as much
 * of the machine as of the change; what ends a search is its iterations, the time only where it must.
 */
const seconds = 15;
const pollSeconds = 0.5;

async function price(
  { prisma, shutdown, rule, ...planner }: PricingSurroundings,
  { data, signal }: Pick<Job<PriceJob>, 'data' | 'signal'>,
): Promise<Priced | null> {
  try {
    const taken = await takeUp(prisma, data, rule);
    if (taken === null) return null;
    const ending = AbortSignal.any([shutdown, signal]);
    const found = await planBoth(taken, new Date(), { ...planner, seconds, signal: ending });
    ending.throwIfAborted();
    return { price: found, eventId: taken.eventId };
  } catch (error) {
    shutdown.throwIfAborted();
    signal.throwIfAborted();
    if (error instanceof NoPrice) return { why: error.why };
    if (error instanceof DomainError) return { why: [`It cannot be done so: ${error.message}`] };
    throw error;
  }
}

/**
 * Prices one proposal. Throws where it should be tried again, here or by another worker; what cannot be
 * planned is an answer, not a failure of the job.
 */
async function handlePrice(
  surroundings: PricingSurroundings,
  job: Pick<Job<PriceJob>, 'data' | 'signal'>,
): Promise<void> {
  const { prisma, say } = surroundings;
  const { yardId, proposalId } = job.data;
  const priced = await price(surroundings, job);
  if (priced === null || !(await settle(prisma, job.data, priced))) {
    say(`proposal ${proposalId}: needs no price any more`);
    return;
  }
  say(`proposal ${proposalId} of ${yardId}: ${'price' in priced ? 'priced' : 'no price'}`);
}

/** Takes proposals from the queue, one at a time: a price waits, work that goes on does not. */
export async function workOnPrices(boss: PgBoss, surroundings: PricingSurroundings): Promise<void> {
  await boss.work<PriceJob>(
    priceQueue.name,
    { pollingIntervalSeconds: pollSeconds, heartbeatRefreshSeconds: 3 },
    async ([job]) => handlePrice(surroundings, job),
  );
  await boss.work<PriceJob>(
    priceQueue.givenUp,
    { pollingIntervalSeconds: pollSeconds },
    async ([job]) => {
      const tries = String(priceQueue.retryLimit + 1);
      const why = [
        `The worker did not come to an end with it in ${tries} tries. Have it priced again.`,
      ];
      await settle(surroundings.prisma, job.data, { why });
    },
  );
}
