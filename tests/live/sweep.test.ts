import { afterAll, beforeAll, expect, test } from 'vitest';
import { inYard, service } from '#persistence/client.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import type { PgBoss } from 'pg-boss';
import { startSweep } from '../../apps/worker/src/alarms/sweep.ts';
import { testDatabase } from '../support/database.ts';
import { smallYard } from '../support/small-yard.ts';

const database = testDatabase();
let boss: PgBoss;

beforeAll(async () => {
  for (const id of ['a', 'b']) {
    const yard = yardSchema.parse(smallYard(id, `Yard ${id}`));
    await inYard(database.service, service(id), (tx) => saveYard(tx, yard));
  }
  boss = createBoss(database.serviceUrl, { role: 'sender', onError: () => undefined });
  await boss.start();
});
afterAll(() => boss.stop({ graceful: false }));

test('the sweep rings what is late, and gives the rest a job, whatever becomes of one of them', async () => {
  const [late, soon] = [new Date(Date.now() - 60_000), new Date(Date.now() + 300_000)];
  const armed = async (yardId: string, key: string, dueAt: Date): Promise<string> => {
    const data = { yardId, key, dueAt, kind: 'opens', words: '' };
    return (await database.owner.alarm.create({ data })).id;
  };
  const broken = await armed('a', 'broken', late);
  const after = await armed('a', 'after', new Date(late.getTime() + 1_000));
  const elsewhere = await armed('b', 'elsewhere', late);
  const coming = await armed('b', 'coming', soon);
  const rung: string[] = [];
  const said: string[] = [];
  const sweep = startSweep({
    ...{ prisma: database.service, boss, say: (line) => void said.push(line) },
    ring: ({ alarmId }) => {
      rung.push(alarmId);
      return alarmId === broken ? Promise.reject(new Error('it broke')) : Promise.resolve();
    },
  });
  await expect.poll(() => rung.length, { timeout: 20_000 }).toBe(3);
  await sweep.stop();
  expect(new Set(rung)).toEqual(new Set([broken, after, elsewhere]));
  expect(said).toEqual([`alarm ${broken}: it broke`]);
  const jobs = await database.owner.$queryRaw<{ id: string }[]>`
    SELECT data ->> 'alarmId' AS id FROM pgboss.job WHERE name = 'alarm' AND data ->> 'yardId' = 'b'`;
  expect(jobs.map(({ id }) => id)).toContain(coming);
});
