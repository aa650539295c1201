import type { PgBoss } from 'pg-boss';
import { type AlarmJob, alarmQueue, type PushJob, pushQueue } from '#persistence/queue/alarms.ts';
import { inBursts, inTurn, resultOf } from '../each-of.ts';
import { push, type PushSurroundings } from './push.ts';
import { ring, type RingSurroundings } from './ring.ts';

/** One after the other, since those of one yard wait for one another. */
export async function workOnAlarms(boss: PgBoss, surroundings: RingSurroundings): Promise<void> {
  await boss.work<AlarmJob>(alarmQueue.name, { ...inBursts, localConcurrency: 2 }, (jobs) =>
    inTurn(jobs, (data) => ring(surroundings, data)),
  );
}

/** Side by side, since each waits for another service. */
export async function workOnPushes(boss: PgBoss, surroundings: PushSurroundings): Promise<void> {
  await boss.work<PushJob>(pushQueue.name, inBursts, (jobs) =>
    Promise.all(jobs.map((job) => resultOf(job, (data) => push(surroundings, data)))),
  );
}
