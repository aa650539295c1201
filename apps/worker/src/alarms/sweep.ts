import { setTimeout as sleep } from 'node:timers/promises';
import type { PgBoss } from 'pg-boss';
import { inYard, service } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { comingAlarms, yardsWithAlarms } from '#persistence/live/alarms.ts';
import { scheduleAlarms } from '#persistence/queue/alarms.ts';

export interface Sweeping {
  readonly prisma: PrismaClient;
  readonly boss: PgBoss;
  readonly say: (line: string) => void;
  /** Rings what should have rung by now. */
  readonly ring: (alarm: { readonly yardId: string; readonly alarmId: string }) => Promise<void>;
}

const everyMs = 60_000;
/** Jobs are there so long before. */
const aheadMs = 600_000;
/** Its job has had its time. */
const lateMs = 5_000;

/**
 * Every minute gives alarms that come due a job, and rings those whose job was lost or failed too
 * often. Several workers may: an alarm has one job for its moment, and rings once.
 */
export function startSweep(sweeping: Sweeping): { stop(): Promise<void> } {
  const ending = new AbortController();
  const done = sweepOn(sweeping, ending.signal);
  return {
    stop: async () => {
      ending.abort();
      await done;
    },
  };
}

const wordsOf = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

async function sweepOn(sweeping: Sweeping, ending: AbortSignal): Promise<void> {
  while (!ending.aborted) {
    try {
      await sweep(sweeping, ending);
    } catch (error) {
      sweeping.say(`alarms: ${wordsOf(error)}`);
    }
    await sleep(everyMs, undefined, { signal: ending }).catch(() => undefined);
  }
}

async function sweep({ prisma, boss, say, ring }: Sweeping, ending: AbortSignal): Promise<void> {
  const now = new Date();
  const until = new Date(now.getTime() + aheadMs);
  for (const yardId of await yardsWithAlarms(prisma, until)) {
    const coming = await inYard(prisma, service(yardId), async (tx) => {
      const alarms = await comingAlarms(tx, yardId, until);
      await scheduleAlarms(boss, tx, yardId, alarms, now);
      return alarms;
    });
    for (const { id, dueAt } of coming) {
      if (ending.aborted) return;
      if (now.getTime() - dueAt.getTime() <= lateMs) continue;
      try {
        await ring({ yardId, alarmId: id });
      } catch (error) {
        // Those after it, and those of other yards, ring all the same.
        say(`alarm ${id}: ${wordsOf(error)}`);
      }
    }
  }
}
