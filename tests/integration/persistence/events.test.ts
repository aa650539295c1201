import { setTimeout as sleep } from 'node:timers/promises';
import { Client } from 'pg';
import { beforeAll, describe, expect, it } from 'vitest';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { refusalOf } from '#persistence/refusal.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { testDatabase } from '#tests/support/database.ts';
import { smallYard } from './small-yard.ts';

const database = testDatabase();

const within = <T>(
  yardId: string,
  work: (tx: Transaction) => Promise<T>,
  client?: PrismaClient,
): Promise<T> => inYard(client ?? database.service, service(yardId), work);

const event = (yardId: string, tx: Transaction): Promise<{ id: bigint }> =>
  tx.event.create({ data: { yardId, kind: 'task-started', subject: 'task', subjectId: 't' } });

beforeAll(async () => {
  for (const id of ['y', 'z']) await within(id, (tx) => saveYard(tx, smallYard(id)));
});

describe('an event', () => {
  it('is told to whoever listens, once it is committed', async () => {
    const listener = new Client({ connectionString: database.serviceUrl });
    await listener.connect();
    try {
      const heard: (string | undefined)[] = [];
      listener.on('notification', ({ payload }) => heard.push(payload));
      await listener.query('LISTEN curewright_event');
      const undone = within('y', async (tx) => {
        await event('y', tx);
        throw new Error('changed my mind');
      });
      await expect(undone).rejects.toThrow('changed my mind');
      const { id } = await within('y', (tx) => event('y', tx));
      await expect.poll(() => heard).toEqual([`y:${String(id)}`]);
    } finally {
      await listener.end();
    }
  });

  it('waits for the earlier ones of its yard, so that ids appear in ascending order', async () => {
    const order: string[] = [];
    const hold = Promise.withResolvers<undefined>();
    const written = Promise.withResolvers<undefined>();
    const slow = within('y', async (tx) => {
      const { id } = await event('y', tx);
      written.resolve(undefined);
      await hold.promise;
      order.push('slow');
      return id;
    });
    await written.promise;
    const quick = within('y', async (tx) => {
      const { id } = await event('y', tx);
      order.push('quick');
      return id;
    });
    const other = await within('z', (tx) => event('z', tx));
    expect(other.id).toBeGreaterThan(0n);
    await sleep(100);
    hold.resolve(undefined);
    const [first, second] = await Promise.all([slow, quick]);
    expect(order).toEqual(['slow', 'quick']);
    expect(second).toBeGreaterThan(first);
  });

  it.each(["UPDATE event SET kind = 'other'", 'DELETE FROM event', 'TRUNCATE event'])(
    'stays as it is: %s',
    async (sql) => {
      await within('y', (tx) => event('y', tx));
      for (const [client, expected] of [
        [database.service, 'permission'],
        [database.owner, 'immutable'],
      ] as const) {
        const error: unknown = await within('y', (tx) => tx.$executeRawUnsafe(sql), client).catch(
          (caught: unknown) => caught,
        );
        expect(refusalOf(error)?.kind).toBe(expected);
      }
    },
  );
});
