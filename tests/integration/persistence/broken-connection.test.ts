import { once } from 'node:events';
import { type AddressInfo, connect, createServer, type Server, type Socket } from 'node:net';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { createClient, nowhere } from '#persistence/client.ts';
import { createBoss } from '#persistence/queue/boss.ts';
import { testDatabase } from '../../support/database.ts';
import { until } from '../../support/until.ts';

const database = testDatabase();

/** Between client and server: connections of before it was muted stay open and carry nothing more. */
let between: Server;
let carried: Socket[] = [];

beforeAll(async () => {
  const { hostname, port } = new URL(database.serviceUrl);
  between = createServer((near) => {
    const far = connect({ host: hostname, port: Number(port) });
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
  await once(between.listen(0, '127.0.0.1'), 'listening');
});

afterAll(() => {
  for (const socket of carried) socket.destroy();
  between.close();
});

function mute(): void {
  for (const socket of carried) socket.unpipe().pause();
}

function throughIt(): string {
  const url = new URL(database.serviceUrl);
  url.port = String((between.address() as AddressInfo).port);
  return url.href;
}

test('a connection from which nothing comes fails its work in time, and serves nobody else', async () => {
  const client = createClient(throughIt(), { connections: 1, statementMs: 500 });
  const look = (): Promise<unknown> => nowhere(client, (tx) => tx.$queryRaw`SELECT 1 AS one`);
  await look();
  mute();
  await expect(look()).rejects.toThrow();
  await expect(look()).resolves.toEqual([{ one: 1 }]);
  await client.$disconnect();
}, 30_000);

test('neither does a queue wait for it', async () => {
  const failures: string[] = [];
  const boss = createBoss(throughIt(), {
    role: 'sender',
    onError: (error) => failures.push(error.message),
    answerMs: 500,
  });
  await boss.start();
  await boss.getQueues();
  mute();
  await expect(boss.getQueues()).rejects.toThrow('Query read timeout');
  await until(async () => (await boss.getQueues().catch(() => null)) !== null);
  carried = carried.filter((socket) => !socket.destroyed);
  await boss.stop({ graceful: false });
}, 30_000);

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
  const client = createClient(`postgresql://x:y@127.0.0.1:${String(port)}/z`, { connections: 1 });
  for (let time = 0; time < 3; time += 1) {
    await expect(nowhere(client, (tx) => tx.$queryRaw`SELECT 1`)).rejects.toThrow();
  }
  await client.$disconnect();
  server.close();
});
