import { once } from 'node:events';
import { type AddressInfo, connect, createServer, type Server, type Socket } from 'node:net';
import { promisify } from 'node:util';
import { describe, expect, test } from 'vitest';
import { createClient, nowhere } from '#persistence/client.ts';
import { silentMs } from '#persistence/connection.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { withClient } from '#persistence/roles.ts';
import { databaseError } from '../../../apps/api/src/platform/errors/database-errors.ts';
import { testDatabase } from '../../support/database.ts';
import { until } from '../../support/until.ts';

const database = testDatabase();
const statementMs = 500;

/** Between client and server. Muted, the connections of before stay open and carry nothing more. */
interface Between extends AsyncDisposable {
  readonly url: string;
  mute(): void;
}

async function between(): Promise<Between> {
  const url = new URL(database.serviceUrl);
  const { hostname: host, port } = url;
  const carried: Socket[] = [];
  const server = createServer((near) => {
    const far = connect({ host, port: Number(port) });
    for (const [from, to] of [
      [near, far],
      [far, near],
    ]) {
      from.pipe(to);
      from.on('error', () => to.destroy());
      from.on('close', () => to.destroy());
    }
    carried.push(near, far);
  });
  await once(server.listen(0, '127.0.0.1'), 'listening');
  url.port = String((server.address() as AddressInfo).port);
  return {
    url: url.href,
    mute: () => {
      for (const socket of carried) socket.unpipe().pause();
    },
    [Symbol.asyncDispose]: async () => {
      for (const socket of carried) socket.destroy();
      await promisify(server.close.bind(server))();
    },
  };
}

// Each waits for seconds: at once, since they wait for nothing of each other.
describe.concurrent('a connection from which nothing comes', () => {
  test.each(['before a transaction', 'within it', 'before its end'] as const)(
    'from %s on fails the work in time, and serves nobody else',
    async (since) => {
      await using it = await between();
      const client = createClient(it.url, { connections: 1, statementMs });
      const look = (muted?: typeof since): Promise<unknown> =>
        nowhere(client, async (tx) => {
          if (muted === 'within it') it.mute();
          const found = await tx.$queryRaw`SELECT 1 AS one`;
          if (muted === 'before its end') it.mute();
          return found;
        });
      await look();
      if (since === 'before a transaction') it.mute();
      const begun = performance.now();
      const thrown: unknown = await look(since).catch((error: unknown) => error);
      expect(databaseError(thrown)).toMatchObject({ code: 'service.unavailable' });
      await expect(look()).resolves.toEqual([{ one: 1 }]);
      // One wait, not one more for giving up what was begun.
      expect(performance.now() - begun).toBeLessThan(2 * (statementMs + silentMs));
      await client.$disconnect();
    },
    30_000,
  );

  test('is not waited for by a queue for ever either', async () => {
    await using it = await between();
    const failures: string[] = [];
    const boss = createBoss(it.url, {
      role: 'sender',
      onError: (error) => failures.push(error.message),
      statementMs,
    });
    await boss.start();
    await boss.getQueues();
    it.mute();
    await expect(boss.getQueues()).rejects.toThrow('Query read timeout');
    await until(async () => (await boss.getQueues().catch(() => null)) !== null);
    await boss.stop({ graceful: false });
  }, 30_000);
});

/** Lets everybody in and ends at once, all in one breath, as a server does that dies just then. */
function dyingServer(): Server {
  const message = (kind: string, body: Buffer): Buffer => {
    const size = Buffer.alloc(4);
    size.writeInt32BE(body.length + 4);
    return Buffer.concat([Buffer.from(kind), size, body]);
  };
  const fatal = ['SFATAL', 'VFATAL', 'C57P01', 'Mterminating connection', ''].join('\0');
  const words = Buffer.concat([
    message('R', Buffer.alloc(4)),
    message('Z', Buffer.from('I')),
    message('E', Buffer.from(`${fatal}\0`)),
  ]);
  return createServer((socket) => {
    socket.on('error', () => undefined);
    socket.once('data', () => socket.end(words));
  });
}

test('a server that dies as it lets in fails the work that asked, and not the program', async () => {
  const server = dyingServer();
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const { port } = server.address() as AddressInfo;
  const url = `postgresql://x:y@127.0.0.1:${String(port)}/z`;
  const client = createClient(url, { connections: 1 });
  for (let time = 0; time < 3; time += 1) {
    const thrown: unknown = await nowhere(client, (tx) => tx.$queryRaw`SELECT 1`).catch(
      (error: unknown) => error,
    );
    expect(databaseError(thrown)).toMatchObject({ code: 'service.unavailable' });
  }
  await client.$disconnect();
  await expect(withClient(url, (one) => one.query('SELECT 1'))).rejects.toThrow();
  const boss = createBoss(url, { role: 'worker', onError: () => undefined });
  await expect(boss.start()).rejects.toThrow();
  server.close();
});
