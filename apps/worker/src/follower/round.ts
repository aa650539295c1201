import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import type { FollowerStep, Following } from './following.ts';

export interface NamedStep {
  readonly name: string;
  readonly take: FollowerStep;
  /**
   * In a transaction of its own before the others: it locks the work and the log, for which nobody
   * is to wait while those reckon.
   */
  readonly first?: boolean;
}

export interface RoundSurroundings extends Pick<Following, 'states' | 'boss'> {
  readonly prisma: PrismaClient;
}

/** `elsewhere`: another worker is at this yard just now; it sees what is new itself. */
export type Round = 'done' | 'more' | 'elsewhere';

/** One transaction's worth; the rest follows in the next round. */
const mostEvents = 500;
/** A round may make a rework and read a large yard. */
const roundMs = 60_000;

/** What a step threw, and which one: the others may be well. */
export class StepFailure extends Error {
  readonly step: string;

  constructor(step: string, cause: unknown) {
    super(`${step}: ${cause instanceof Error ? cause.message : String(cause)}`, { cause });
    this.step = step;
  }
}

async function take({ name, take: step }: NamedStep, following: Following): Promise<void> {
  try {
    await step(following);
  } catch (error) {
    throw new StepFailure(name, error);
  }
}

/**
 * Follows one yard from where its cursor stands: the steps and the cursor are one transaction, so
 * that what follows from an event follows once, however many workers hear of it and whenever one
 * of them dies. `stays`: the cursor is left where it is, and the events come again. Throws
 * `StepFailure`, with nothing done.
 */
function followOnce(
  surroundings: RoundSurroundings,
  yardId: string,
  steps: readonly NamedStep[],
  stays = false,
): Promise<Round> {
  const { prisma, states, boss } = surroundings;
  return inYard(
    prisma,
    service(yardId),
    async (tx) => {
      const cursor = await cursorOf(tx, yardId);
      if (cursor === null) return 'elsewhere';
      const events = await tx.event.findMany({
        where: { yardId, id: { gt: cursor } },
        orderBy: { id: 'asc' },
        take: mostEvents,
      });
      const last = events.at(-1);
      if (last === undefined) return 'done';
      const following: Following = { tx, yardId, now: new Date(), events, states, boss };
      for (const step of steps) await take(step, following);
      if (stays) return 'done';
      await tx.logCursor.update({ where: { yardId }, data: { eventId: last.id } });
      return events.length === mostEvents ? 'more' : 'done';
    },
    { timeout: roundMs },
  );
}

/**
 * A round: what goes first by itself, then the others together with the cursor. What the first
 * appends is among the events of the others already.
 */
export async function followRound(
  surroundings: RoundSurroundings,
  yardId: string,
  steps: readonly NamedStep[],
): Promise<Round> {
  for (const step of steps) {
    if (step.first !== true) continue;
    if ((await followOnce(surroundings, yardId, [step], true)) === 'elsewhere') return 'elsewhere';
  }
  return followOnce(
    surroundings,
    yardId,
    steps.filter(({ first }) => first !== true),
  );
}

/**
 * The steps beside the one that failed, each by itself, with the cursor where it is: what they do
 * is theirs to do once, and nobody is left without an alarm because no plan can be made.
 */
export async function withoutFailed(
  surroundings: RoundSurroundings,
  yardId: string,
  others: readonly NamedStep[],
  say: (line: string) => void,
): Promise<void> {
  for (const step of others) {
    try {
      await followOnce(surroundings, yardId, [step], true);
    } catch (error) {
      surroundings.states.forget(yardId);
      say(`follower: ${yardId}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
}

/** Locks the yard's cursor until the transaction ends; null where another worker has it. */
async function cursorOf(tx: Transaction, yardId: string): Promise<bigint | null> {
  const lock = (): Promise<{ eventId: bigint }[]> => tx.$queryRaw<{ eventId: bigint }[]>`
    SELECT event_id AS "eventId" FROM log_cursor WHERE yard_id = ${yardId} FOR UPDATE SKIP LOCKED`;
  const known = (await lock()).at(0);
  if (known !== undefined) return known.eventId;
  // There is none, or another worker has it; of two that add it at once one adds nothing.
  await tx.$executeRaw`
    INSERT INTO log_cursor (yard_id) SELECT ${yardId}
    WHERE NOT EXISTS (SELECT FROM log_cursor WHERE yard_id = ${yardId})
    ON CONFLICT DO NOTHING`;
  return (await lock()).at(0)?.eventId ?? null;
}
