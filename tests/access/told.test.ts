import { createHash } from 'node:crypto';
import { Client } from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { inYard, service } from '#persistence/client.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { smallYard } from '#tests/integration/persistence/small-yard.ts';
import { testDatabase } from '#tests/support/database.ts';

const database = testDatabase();
const { owner } = database;
const heard: (string | undefined)[] = [];
let listener: Client | undefined;

beforeAll(async () => {
  await inYard(database.service, service('y'), (tx) => saveYard(tx, smallYard('y')));
  listener = new Client({ connectionString: database.serviceUrl });
  await listener.connect();
  listener.on('notification', ({ payload }) => heard.push(payload));
  await listener.query('LISTEN curewright_access');
});
afterAll(() => listener?.end());

/** What every process is told of `work`, and of nothing before. */
async function told(work: () => Promise<unknown>): Promise<readonly (string | undefined)[]> {
  heard.length = 0;
  await work();
  // Comes after all that was told before it.
  await owner.$executeRaw`SELECT pg_notify('curewright_access', 'end')`;
  await expect.poll(() => heard.at(-1)).toBe('end');
  return heard.slice(0, -1);
}

const token = (secret: string): Uint8Array<ArrayBuffer> =>
  new Uint8Array(createHash('sha256').update(secret).digest());
const later = (hours: number): Date => new Date(Date.now() + hours * 3_600_000);

it('a session that ends is told by its id', async () => {
  const { id: accountId } = await owner.account.create({
    data: { email: 'ann@yard.test', name: 'Ann' },
  });
  const [first, second] = await Promise.all(
    ['first', 'second'].map((secret) =>
      owner.session.create({ data: { tokenHash: token(secret), accountId, expiresAt: later(9) } }),
    ),
  );
  const at = (id: string) => ({ where: { id } });
  expect(
    await told(() => owner.session.update({ ...at(first.id), data: { lastSeenAt: new Date() } })),
  ).toEqual([]);
  expect(
    await told(() => owner.session.update({ ...at(first.id), data: { expiresAt: later(1) } })),
  ).toEqual([`session:${first.id}`]);
  expect(await told(() => owner.session.delete(at(first.id)))).toEqual([`session:${first.id}`]);
  expect(await told(() => owner.account.delete(at(accountId)))).toEqual([`session:${second.id}`]);
});

it('a member whose roles or account change is told, and no other change of one', async () => {
  const where = { yardId_id: { yardId: 'y', id: 'ben' } };
  expect(await told(() => owner.member.update({ where, data: { name: 'Benjamin' } }))).toEqual([]);
  expect(await told(() => owner.member.update({ where, data: { roles: ['owner'] } }))).toEqual([]);
  expect(
    await told(() => owner.member.update({ where, data: { roles: ['owner', 'builder'] } })),
  ).toEqual(['member:y:ben']);
  const { id: accountId } = await owner.account.create({
    data: { email: 'ben@yard.test', name: 'Ben' },
  });
  expect(await told(() => owner.member.update({ where, data: { accountId } }))).toEqual([
    'member:y:ben',
  ]);
});

it('a program key that ends is told, and not that it was used', async () => {
  const key = { yardId: 'y', memberId: 'ann', name: 'Clock', scopes: ['read', 'work'] };
  const { id } = await owner.programKey.create({
    data: { ...key, tokenHash: token('key'), expiresAt: later(9) },
  });
  const where = { yardId_id: { yardId: 'y', id } };
  const change = (data: object): Promise<readonly (string | undefined)[]> =>
    told(() => owner.programKey.update({ where, data }));
  expect(await change({ lastUsedAt: new Date() })).toEqual([]);
  expect(await change({ scopes: ['read'] })).toEqual([`key:${id}`]);
  expect(await change({ expiresAt: later(1) })).toEqual([`key:${id}`]);
  expect(await change({ revokedAt: new Date() })).toEqual([`key:${id}`]);
  expect(await told(() => owner.programKey.delete({ where }))).toEqual([`key:${id}`]);
});

it('a yard that begins to ask for a second factor is told, and not that it ceases to', async () => {
  const ask = (secondFactorRequired: boolean): Promise<readonly (string | undefined)[]> =>
    told(() => owner.yard.update({ where: { id: 'y' }, data: { secondFactorRequired } }));
  expect(await ask(true)).toEqual(['yard:y']);
  expect(await ask(false)).toEqual([]);
});
