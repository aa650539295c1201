import { PgBoss } from 'pg-boss';
import { Connection } from '../connection.ts';
import { alarmQueue, pushQueue } from './alarms.ts';
import { queueSchema } from './boss.ts';
import { claimLapseQueue } from './claim-lapse.ts';
import { planRunQueue } from './plan-runs.ts';
import { priceQueue } from './price.ts';
import { replanQueue } from './replans.ts';

/** Makes or migrates the queue's tables and declares our queues, as the owner. Repeatable. */
export async function installQueue(ownerUrl: string): Promise<void> {
  const driver = { Client: Connection };
  const boss = new PgBoss({
    ...driver,
    connectionString: ownerUrl,
    schema: queueSchema,
    max: 2,
    schedule: false,
    supervise: false,
    registerInstance: false,
  });
  const failures: Error[] = [];
  boss.on('error', (error) => failures.push(error));
  try {
    await boss.start();
    for (const { name, givenUp, ...options } of [planRunQueue, priceQueue]) {
      await declare(boss, givenUp, { retryLimit: 10, retryDelay: 1 });
      await declare(boss, name, { ...options, deadLetter: givenUp });
    }
    // Its job says the same as a plan run's, and ends the same way.
    const { name: replan, ...replanSettings } = replanQueue;
    await declare(boss, replan, { ...replanSettings, deadLetter: planRunQueue.givenUp });
    for (const { name, ...settings } of [alarmQueue, pushQueue, claimLapseQueue]) {
      await declare(boss, name, settings);
    }
  } finally {
    await boss.stop({ graceful: false });
  }
  if (failures.length > 0) throw failures[0];
}

type QueueOptions = Parameters<PgBoss['updateQueue']>[1];

async function declare(boss: PgBoss, name: string, options: QueueOptions): Promise<void> {
  const known = await boss.getQueue(name);
  if (known === null) await boss.createQueue(name, options as Parameters<PgBoss['createQueue']>[1]);
  else await boss.updateQueue(name, options);
}
