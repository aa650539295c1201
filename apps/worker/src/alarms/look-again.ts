import type { PgBoss } from 'pg-boss';
import { z } from 'zod';
import { DomainError } from '#kernel/error.ts';
import type { AlarmFacts } from '#live/alarms/facts.ts';
import { type Site, siteOf } from '#live/alarms/site.ts';
import { isStillSo } from '#live/alarms/still-so.ts';
import { unbegunAlarms } from '#live/alarms/unbegun.ts';
import { lateWords } from '#live/rework/late-words.ts';
import type { Transaction } from '#persistence/client.ts';
import type { Alarm } from '#persistence/generated/client.ts';
import { factsOf, hasRung, isTold } from '#persistence/live/alarms.ts';
import { lastPreparation, standingReworks } from '#persistence/live/reworks.ts';
import type { YardState } from '#persistence/live/yard-state.ts';
import type { YardStates } from '#persistence/live/yard-states.ts';
import { scheduleAlarms } from '#persistence/queue/alarms.ts';
import { alarmsInput } from './input.ts';

export interface LookSurroundings {
  readonly boss: PgBoss;
  readonly states: YardStates;
}

/**
 * What is to be told; null where it is not so any more. Of a window that is to have shut: with the
 * preparation that was added for it, if one was; `later` where it can still be kept, with another
 * look when it really shuts. Likewise `later` where work could not be begun until a while ago.
 */
export async function lookAgain(
  surroundings: LookSurroundings,
  tx: Transaction,
  row: Alarm,
  now: Date,
): Promise<AlarmFacts | 'later' | null> {
  const { boss, states } = surroundings;
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
  if (facts.kind === 'unbegun') return unbegun(boss, tx, row, state, now);
  if (facts.kind !== 'missed' || taskId === null) return facts;
  const made = await lastPreparation(tx, yardId, taskId);
  if (made !== null && !(await isTold(tx, yardId, made.id))) {
    return { ...facts, rework: { id: made.id, words: made.words } };
  }
  const otherWay = await otherWayOf(tx, row, taskId);
  if (otherWay !== null) return { ...facts, otherWay };
  const closesAt = new Date(facts.closesAt);
  if (closesAt <= now) return facts;
  return later(boss, tx, row, closesAt, now);
}

async function later(
  boss: PgBoss,
  tx: Transaction,
  { yardId, id }: Alarm,
  dueAt: Date,
  now: Date,
): Promise<'later'> {
  await tx.alarm.update({
    where: { yardId_id: { yardId, id } },
    data: { dueAt, moves: { increment: 1 } },
  });
  await scheduleAlarms(boss, tx, yardId, [{ id, dueAt }], now);
  return 'later';
}

/** What is looked up in a yard of thousands of tasks, for several that ring at once. */
const sites = new WeakMap<YardState, Site>();

/** Whether it could have begun hangs on all around it, and on the air, of which no event tells. */
async function unbegun(
  boss: PgBoss,
  tx: Transaction,
  row: Alarm,
  state: YardState,
  now: Date,
): Promise<AlarmFacts | 'later' | null> {
  // It may ring a moment early.
  const at = new Date(Math.max(now.getTime(), row.dueAt.getTime()));
  const input = await alarmsInput(tx, row.yardId, state, at);
  const known = sites.get(state) ?? siteOf(input);
  sites.set(state, known);
  const site = { ...known, ...input };
  const wanted = unbegunAlarms(site, row.taskId).at(0);
  if (wanted === undefined) return null;
  const dueAt = new Date(wanted.dueAt);
  return dueAt > at ? later(boss, tx, row, dueAt, now) : wanted.facts;
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
