import { createHash } from 'node:crypto';
import { fromPrisma, type PgBoss } from 'pg-boss';
import type { Transaction } from '../client.ts';

/** A look at an alarm, at the moment at which it was due when the job was made. */
export interface AlarmJob {
  readonly yardId: string;
  readonly alarmId: string;
}

export const alarmQueue = {
  name: 'alarm',
  /** What fails for longer than that is found by the sweep, again and again. */
  retryLimit: 5,
  retryDelay: 1,
  expireInSeconds: 60,
  deleteAfterSeconds: 3600,
} as const;

/** A notification that one browser is to be sent. */
export interface PushJob extends AlarmJob {
  readonly memberId: string;
  readonly subscriptionId: string;
}

export const pushQueue = {
  name: 'push',
  /** With growing pauses some twenty minutes: a push service that is away is so for minutes. */
  retryLimit: 8,
  retryDelay: 2,
  retryBackoff: true,
  retryDelayMax: 600,
  expireInSeconds: 60,
  deleteAfterSeconds: 3600,
} as const;

/** Alarms that are due later have no job yet; the sweep gives them one in time. */
const aheadMs = 36 * 3_600_000;

/**
 * A UUID (RFC 9562, version 8) of the alarm and the moment: an alarm that is moved to and fro, or
 * looked at by several workers, has one job for each moment at which it was to ring.
 */
function jobIdOf(alarmId: string, dueAt: Date): string {
  const hash = createHash('sha256')
    .update(`${alarmId} ${String(dueAt.getTime())}`)
    .digest('hex');
  const variant = ((parseInt(hash[16], 16) & 0x3) | 0x8).toString(16);
  return [
    hash.slice(0, 8),
    hash.slice(8, 12),
    `8${hash.slice(13, 16)}`,
    `${variant}${hash.slice(17, 20)}`,
    hash.slice(20, 32),
  ].join('-');
}

export interface DueAlarm {
  readonly id: string;
  readonly dueAt: Date;
}

/** A job for each alarm at its moment, with the transaction; one that is there already stays. */
export async function scheduleAlarms(
  boss: PgBoss,
  tx: Transaction,
  yardId: string,
  alarms: readonly DueAlarm[],
  now: Date,
): Promise<void> {
  const near = alarms.filter(({ dueAt }) => dueAt.getTime() - now.getTime() <= aheadMs);
  if (near.length === 0) return;
  const jobs = near.map(({ id, dueAt }) => ({
    id: jobIdOf(id, dueAt),
    data: { yardId, alarmId: id } satisfies AlarmJob,
    startAfter: dueAt,
  }));
  await boss.insert(alarmQueue.name, jobs, { db: fromPrisma(tx) });
}

/** A notification to each subscription, with the transaction in which the alarm rings. */
export async function sendPushes(
  boss: PgBoss,
  tx: Transaction,
  jobs: readonly PushJob[],
  startAfter?: Date,
): Promise<void> {
  if (jobs.length === 0) return;
  const made = jobs.map((data) => ({ data, ...(startAfter === undefined ? {} : { startAfter }) }));
  await boss.insert(pushQueue.name, made, { db: fromPrisma(tx) });
}
