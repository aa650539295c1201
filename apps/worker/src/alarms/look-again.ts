import type { PgBoss } from 'pg-boss';
import { z } from 'zod';
import { DomainError } from '#kernel/error.ts';
import type { AlarmFacts } from '#live/alarms/facts.ts';
import { isStillSo } from '#live/alarms/still-so.ts';
import { lateWords } from '#live/rework/late-words.ts';
import type { Transaction } from '#persistence/client.ts';
import type { Alarm } from '#persistence/generated/client.ts';
import { factsOf, hasRung, isTold } from '#persistence/live/alarms.ts';
import { lastPreparation, standingReworks } from '#persistence/live/reworks.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import type { YardStates } from '#persistence/live/yard-states.ts';
import { scheduleAlarms } from '#persistence/queue/alarms.ts';

export interface LookSurroundings {
  readonly boss: PgBoss;
  readonly states: YardStates;
}

/**
 * What is to be told; null where it is not so any more. Of a window that is to have shut: with the
 * preparation that was added for it, if one was; `later` where it can still be kept, with another
 * look when it really shuts.
 */
export async function lookAgain(
  { boss, states }: LookSurroundings,
  tx: Transaction,
  row: Alarm,
  now: Date,
): Promise<AlarmFacts | 'later' | null> {
  const facts = factsOf(row);
  if (facts === null) return null;
  const { yardId, taskId } = row;
  if (facts.kind === 'missed' && facts.rework !== null) {
    const { id } = facts.rework;
    if (!(await standingReworks(tx, yardId, [id])).has(id)) return null;
    return (await hasRung(tx, yardId, id)) ? null : facts;
  }
  // The follower may not have come to what was reported a moment ago.
  const state = await states.at(tx, yardId);
  if (!isStillSo(facts, row, state)) return null;
  if (facts.kind === 'closes') return { ...facts, after: afterwards(state, row) };
  if (facts.kind !== 'missed' || taskId === null) return facts;
  const made = await lastPreparation(tx, yardId, taskId);
  if (made !== null && !(await isTold(tx, yardId, made.id))) {
    return { ...facts, rework: { id: made.id, words: made.words } };
  }
  const otherWay = await otherWayOf(tx, row, taskId);
  if (otherWay !== null) return { ...facts, otherWay };
  const closesAt = new Date(facts.closesAt);
  if (closesAt <= now) return facts;
  await tx.alarm.update({
    where: { yardId_id: { yardId, id: row.id } },
    data: { dueAt: closesAt, moves: { increment: 1 } },
  });
  await scheduleAlarms(boss, tx, yardId, [{ id: row.id, dueAt: closesAt }], now);
  return 'later';
}

/** What it takes to go on once the window of the alarm has shut; empty where that cannot be said. */
function afterwards({ yard, workload }: YardState, { key }: Alarm): string {
  try {
    return lateWords({ yard, workload, linkId: key.slice('closes:'.length) });
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    return '';
  }
}

const missedSchema = z.object({ linkIds: z.array(z.string()), words: z.string() });

/** What the log says is left of a choice, one way of which the window was; null: nothing. */
async function otherWayOf(
  tx: Transaction,
  { yardId, key }: Alarm,
  taskId: string,
): Promise<string | null> {
  const events = await tx.event.findMany({
    where: { yardId, kind: 'window-missed', subject: 'task', subjectId: taskId },
    orderBy: { id: 'desc' },
  });
  const told = events.flatMap(({ payload }) => missedSchema.safeParse(payload).data ?? []);
  return told.find(({ linkIds }) => linkIds.some((id) => key === `missed:${id}`))?.words ?? null;
}
