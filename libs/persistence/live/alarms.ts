import { randomUUID } from 'node:crypto';
import { isDeepStrictEqual } from 'node:util';
import {
  type AlarmFacts,
  alarmFactsSchema,
  putOff,
  ringsAgain,
  type WantedAlarm,
} from '#live/alarms/facts.ts';
import type { Transaction } from '../client.ts';
import type { Alarm } from '../generated/client.ts';
import type { DueAlarm } from '../queue/alarms.ts';
import { asJson, insert, isoOf } from '../rows.ts';
import { standingReworks } from './reworks.ts';

/** What a row was made of; null of one that this version of the service does not know. */
export const factsOf = ({ payload }: Pick<Alarm, 'payload'>): AlarmFacts | null =>
  alarmFactsSchema.safeParse(payload).data ?? null;

export interface Arming {
  readonly yardId: string;
  readonly now: Date;
  readonly wanted: readonly WantedAlarm[];
}

/**
 * Makes the alarms to come those that are wanted: new ones armed, others moved, and what is not
 * wanted any more void. Returns those that have another moment now, for whoever schedules them.
 */
export async function armAlarms(tx: Transaction, arming: Arming): Promise<DueAlarm[]> {
  const { yardId, now, wanted } = arming;
  const armed = await tx.alarm.findMany({ where: { yardId, state: 'armed' } });
  const byKey = new Map(armed.map((row) => [row.key, row]));
  const keys = wanted.map(({ key }) => key);
  const rung = await lastRung(tx, yardId, keys);
  const news: NewAlarm[] = [];
  const moved: DueAlarm[] = [];
  for (const asked of wanted) {
    const told = rung.get(asked.key);
    const rungAt = told?.rungAt ?? null;
    const one = rungAt === null ? asked : putOff(asked, rungAt);
    const row = byKey.get(one.key);
    if (row !== undefined) moved.push(...(await move(tx, row, one, now)));
    else if (await isNews(tx, yardId, one, told)) news.push(newAlarm(yardId, one));
  }
  await insert(tx.alarm, news);
  const stays = new Set(keys);
  const unwanted = armed.filter((row) => !stays.has(row.key));
  const told = unwanted.flatMap((row) => preparationOf(factsOf(row)) ?? []);
  const standing = await standingReworks(tx, yardId, told);
  // A preparation is told of once it was made, whatever became of the window since.
  const over = unwanted.filter((row) => !standing.has(preparationOf(factsOf(row)) ?? ''));
  if (over.length > 0) {
    const where = { yardId, id: { in: over.map(({ id }) => id) }, state: 'armed' };
    await tx.alarm.updateMany({ where, data: { state: 'void' } });
  }
  return [...news.map(({ id, dueAt }) => ({ id, dueAt })), ...moved];
}

const preparationOf = (facts: AlarmFacts | null): string | null =>
  facts?.kind === 'missed' && facts.rework !== null ? facts.rework.id : null;

type NewAlarm = ReturnType<typeof newAlarm>;

const newAlarm = (yardId: string, { key, taskId, dueAt, audience, facts }: WantedAlarm) => ({
  yardId,
  id: randomUUID(),
  key,
  kind: facts.kind,
  taskId,
  dueAt: new Date(dueAt),
  audience: [...audience],
  words: '',
  payload: asJson(facts),
});

type Rung = Pick<Alarm, 'key' | 'payload' | 'rungAt'>;

/** The last time that each of the keys was rung. */
async function lastRung(
  tx: Transaction,
  yardId: string,
  keys: readonly string[],
): Promise<ReadonlyMap<string, Rung>> {
  if (keys.length === 0) return new Map();
  const rows = await tx.alarm.findMany({
    where: { yardId, key: { in: [...keys] }, state: 'rung' },
    orderBy: { rungAt: 'asc' },
    select: { key: true, payload: true, rungAt: true },
  });
  return new Map(rows.map((row) => [row.key, row]));
}

async function isNews(
  tx: Transaction,
  yardId: string,
  { facts }: WantedAlarm,
  told: Rung | undefined,
): Promise<boolean> {
  const rework = preparationOf(facts);
  if (rework !== null) return !(await isTold(tx, yardId, rework));
  if (told === undefined) return true;
  const before = factsOf(told);
  if (before === null || told.rungAt === null) return true;
  return ringsAgain(before, told.rungAt.toISOString(), facts);
}

/** Returned with its moment, where that has become another one. */
async function move(
  tx: Transaction,
  row: Alarm,
  { dueAt: wanted, audience, facts }: WantedAlarm,
  now: Date,
): Promise<DueAlarm[]> {
  const dueAt = new Date(wanted);
  // What is late is due at once, at every look anew: it was so before as well.
  const isMoved = dueAt.getTime() !== row.dueAt.getTime() && !(dueAt <= now && row.dueAt <= now);
  const isSame =
    isDeepStrictEqual(factsOf(row), facts) && isDeepStrictEqual(row.audience, audience);
  if (isSame && !isMoved) return [];
  const { count } = await tx.alarm.updateMany({
    where: { yardId: row.yardId, id: row.id, state: 'armed' },
    data: {
      audience: [...audience],
      payload: asJson(facts),
      ...(isMoved ? { dueAt, moves: { increment: 1 } } : {}),
    },
  });
  return isMoved && count > 0 ? [{ id: row.id, dueAt }] : [];
}

/** Whether an alarm that rang, or is about to, tells of the preparation. */
export const isTold = (tx: Transaction, yardId: string, reworkId: string): Promise<boolean> =>
  tells(tx, yardId, reworkId, ['armed', 'rung']);

/** Whether people have been told of the preparation. */
export const hasRung = (tx: Transaction, yardId: string, reworkId: string): Promise<boolean> =>
  tells(tx, yardId, reworkId, ['rung']);

async function tells(
  tx: Transaction,
  yardId: string,
  reworkId: string,
  states: string[],
): Promise<boolean> {
  const told = await tx.alarm.findFirst({
    where: {
      yardId,
      kind: 'missed',
      state: { in: states },
      payload: { path: ['rework', 'id'], equals: reworkId },
    },
    select: { id: true },
  });
  return told !== null;
}

/**
 * Nobody is to be told, or to read any more, that those tasks missed a window: they did not. What is
 * told of a preparation that stands has been added since.
 */
export async function voidMissed(
  tx: Transaction,
  yardId: string,
  taskIds: readonly string[],
): Promise<void> {
  if (taskIds.length === 0) return;
  const where = {
    yardId,
    kind: 'missed',
    taskId: { in: [...taskIds] },
    state: { in: ['armed', 'rung'] },
  };
  const rows = await tx.alarm.findMany({ where });
  const told = new Map(rows.map((row) => [row.id, preparationOf(factsOf(row))]));
  const standing = await standingReworks(
    tx,
    yardId,
    [...told.values()].filter((id) => id !== null),
  );
  const ids = [...told].flatMap(([id, rework]) => (standing.has(rework ?? '') ? [] : [id]));
  await tx.alarm.updateMany({ where: { ...where, id: { in: ids } }, data: { state: 'void' } });
}

/** When the published plan was, as alarms ask for it; null where none is. */
export async function publishedAt(tx: Transaction, yardId: string): Promise<string | null> {
  const row = await tx.publishedPlan.findUnique({
    where: { yardId },
    select: { publishedAt: true },
  });
  return row === null ? null : isoOf(row.publishedAt);
}

/** Alarms of the yard that come due before `until`, or should have rung by now. */
export async function comingAlarms(
  tx: Transaction,
  yardId: string,
  until: Date,
): Promise<DueAlarm[]> {
  return tx.alarm.findMany({
    where: { yardId, state: 'armed', dueAt: { lt: until } },
    select: { id: true, dueAt: true },
    orderBy: { dueAt: 'asc' },
  });
}

/** Yards with alarms that come due before `until`; to be asked outside of any yard. */
export async function yardsWithAlarms(
  db: Pick<Transaction, '$queryRaw'>,
  until: Date,
): Promise<string[]> {
  const rows = await db.$queryRaw<
    { id: string }[]
  >`SELECT id FROM yards_with_alarms(${until}) AS id`;
  return rows.map(({ id }) => id);
}
