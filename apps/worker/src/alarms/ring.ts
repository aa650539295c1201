import { whoseOf } from '#access/judge.ts';
import type { Rule } from '#access/rule.ts';
import type { AlarmFacts } from '#live/alarms/facts.ts';
import { alarmWords } from '#live/alarms/words.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { Alarm, PrismaClient } from '#persistence/generated/client.ts';
import { pushTargets } from '#persistence/live/push.ts';
import { type AlarmJob, scheduleAlarms, sendPushes } from '#persistence/queue/alarms.ts';
import { asJson } from '#persistence/rows.ts';
import type { FollowerStep } from '../follower/following.ts';
import { lookAgain, type LookSurroundings } from './look-again.ts';

export interface RingSurroundings extends LookSurroundings {
  readonly prisma: PrismaClient;
  readonly say: (line: string) => void;
  /** Adds the preparation where a window has shut. */
  readonly missedWindows: FollowerStep;
  /** Who may be told at all. */
  readonly rule: Pick<Rule, 'may'>;
}

/** Clocks of two machines differ; an alarm a moment too early is right, one that waits for the sweep is not. */
const earlyMs = 1_500;
/** A large yard may have to be read first. */
const ringMs = 30_000;

/** The words and the event go out with the row, or not at all: an alarm rings once. */
export async function ring(surroundings: RingSurroundings, job: AlarmJob): Promise<void> {
  try {
    await prepare(surroundings, job);
  } catch (error) {
    surroundings.states.forget(job.yardId);
    // People are told that a window has shut, even where no preparation could be made of it.
    surroundings.say(`alarm ${job.alarmId}: ${wordsOf(error)}`);
  }
  await ringOnce(surroundings, job);
}

/**
 * What a window that has shut makes of the work, in a transaction of its own: nobody waits for the
 * locks of that while the words are made.
 */
function prepare(
  { prisma, boss, states, missedWindows }: RingSurroundings,
  { yardId, alarmId }: AlarmJob,
): Promise<void> {
  return inYard(
    prisma,
    service(yardId),
    async (tx) => {
      const now = new Date();
      const shut = await tx.alarm.findFirst({
        where: { yardId, id: alarmId, state: 'armed', kind: 'missed', dueAt: { lte: soon(now) } },
        select: { id: true },
      });
      if (shut !== null) await missedWindows({ tx, yardId, now, events: [], states, boss });
    },
    { timeout: ringMs },
  );
}

const soon = (now: Date): Date => new Date(now.getTime() + earlyMs);

const wordsOf = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);

async function ringOnce(
  surroundings: RingSurroundings,
  { yardId, alarmId }: AlarmJob,
): Promise<void> {
  const { prisma, boss } = surroundings;
  await inYard(
    prisma,
    service(yardId),
    async (tx) => {
      const armed = await tx.alarm.findFirst({ where: { yardId, id: alarmId, state: 'armed' } });
      if (armed === null) return;
      const now = new Date();
      if (armed.dueAt > soon(now)) {
        await scheduleAlarms(boss, tx, yardId, [armed], now);
        return;
      }
      const row = await takeUp(tx, yardId, alarmId);
      if (row === null) return;
      const facts = await lookAgain(surroundings, tx, row, now);
      if (facts === 'later') return;
      const { timeZone } = await tx.yard.findUniqueOrThrow({ where: { id: yardId } });
      const words = facts && alarmWords(facts, now, timeZone);
      const where = { yardId_id: { yardId, id: alarmId } };
      if (facts === null || words === null) {
        await tx.alarm.update({ where, data: { state: 'void' } });
        return;
      }
      await tell(surroundings, tx, row, facts, words, now);
    },
    { timeout: ringMs },
  );
}

/** The alarm while it is armed, kept from others until the transaction ends; null: it rang, or is void. */
async function takeUp(tx: Transaction, yardId: string, id: string): Promise<Alarm | null> {
  await tx.$queryRaw`SELECT 1 FROM alarm WHERE yard_id = ${yardId} AND id = ${id}::uuid FOR UPDATE`;
  return tx.alarm.findFirst({ where: { yardId, id, state: 'armed' } });
}

/** Those of the audience who are still of the yard, in a role that is told. */
async function listeners(
  tx: Transaction,
  { yardId, audience }: Alarm,
  { may }: Pick<Rule, 'may'>,
): Promise<string[]> {
  const members = await tx.member.findMany({
    where: { yardId, id: { in: audience } },
    select: { id: true, roles: true },
  });
  const told = new Set(
    members
      .filter(({ roles }) => typeof may === 'string' || whoseOf(may, roles) !== null)
      .map(({ id }) => id),
  );
  return audience.filter((id) => told.has(id));
}

async function tell(
  { boss, rule }: RingSurroundings,
  tx: Transaction,
  row: Alarm,
  facts: AlarmFacts,
  words: string,
  now: Date,
): Promise<void> {
  const { yardId, id, kind, taskId } = row;
  const audience = await listeners(tx, row, rule);
  await tx.alarm.update({
    where: { yardId_id: { yardId, id } },
    data: { state: 'rung', rungAt: now, words, audience, payload: asJson(facts) },
  });
  const targets = await pushTargets(tx, audience);
  await sendPushes(
    boss,
    tx,
    targets.map((target) => ({
      yardId,
      alarmId: id,
      memberId: target.memberId,
      subscriptionId: target.id,
    })),
  );
  // Last: it holds the yard's log until the commit.
  await tx.event.create({
    data: {
      yardId,
      kind: 'alarm-rung',
      subject: 'alarm',
      subjectId: id,
      payload: { kind, taskId, audience, words, at: now.toISOString() },
    },
  });
}
