import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Subject } from '#access/rule.ts';
import { toLocal } from '#calendar/local-time.ts';
import { hashOf } from '#persistence/access/token.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { startApi } from '../../../apps/api/src/main.ts';
import type { TestDatabase } from '../../support/database.ts';
import type { Kept, Records } from './records.ts';
import { later, makeSide, openAccount, type Person, type Side } from './side.ts';

/** Sessions, passkeys and subscriptions of each account that may be taken away. */
const accountSpares = 8;

export interface World {
  readonly app: NestFastifyApplication;
  readonly url: string;
  /** Where its mails go. */
  readonly mailFolder: string;
  readonly database: TestDatabase;
  readonly here: Side;
  readonly there: Side;
  /** Of an account that is in no yard. */
  readonly stranger: Omit<Person, 'memberId'>;
  /** Sessions, passkeys and subscriptions, each account's own. */
  readonly accounts: Records;
}

/** What the two yards are made in. */
export interface Place {
  readonly database: TestDatabase;
  readonly mailFolder: string;
}

/** The service over two yards of like content, which know nothing of each other. */
export async function makeWorld({ database, mailFolder }: Place): Promise<{
  readonly world: World;
  readonly close: () => Promise<void>;
}> {
  const mail = { folder: mailFolder };
  const api = await startApi({ databaseUrl: database.serviceUrl, port: 0, mail });
  try {
    const { app, url } = api;
    const { date: today } = toLocal(Math.floor(Date.now() / 60_000), 'Europe/London');
    const making = { app, database, today };
    const here = await makeSide(making, 'alder', 'Rowan');
    const there = await makeSide(making, 'zq9x', 'Kq4v');
    const stranger = await openAccount(database.owner, 'stranger@yard.test');
    const everybody = [...Object.values(here.people), ...Object.values(there.people), stranger];
    const accounts = await accountRecords(database.owner, everybody);
    const world = { app, url, mailFolder, database, here, there, stranger, accounts };
    return { world, close: () => api.close() };
  } catch (error) {
    await api.close();
    throw error;
  }
}

async function accountRecords(
  owner: PrismaClient,
  everybody: readonly Pick<Person, 'accountId'>[],
): Promise<Records> {
  const spares = everybody.flatMap(({ accountId }) =>
    Array.from({ length: accountSpares }, () => ({ accountId, id: crypto.randomUUID() })),
  );
  const sessions = spares.map(({ accountId, id }) => ({
    id,
    accountId,
    // Nobody calls with it.
    tokenHash: hashOf(id),
    expiresAt: later(),
  }));
  await owner.session.createMany({ data: sessions });
  const passkeys = spares.map(({ accountId, id }) => ({
    id: Buffer.from(id).toString('base64url'),
    accountId,
    name: 'Spare',
    publicKey: new Uint8Array(32),
    counter: 0n,
    transports: [],
  }));
  await owner.passkey.createMany({ data: passkeys });
  const subscriptions = spares.map(({ accountId, id }) => ({
    id,
    accountId,
    endpoint: `https://push.test/${id}`,
    p256dh: 'key',
    auth: 'secret',
  }));
  await owner.pushSubscription.createMany({ data: subscriptions });
  const kept = (all: readonly { id: string; accountId: string }[]): Kept[] =>
    all.map(({ id, accountId }) => ({ id, of: accountId }));
  return new Map<Subject, readonly Kept[]>([
    ['session', kept(sessions)],
    ['passkey', kept(passkeys)],
    ['push-subscription', kept(subscriptions)],
  ]);
}

/** What calls have ended is there again: sessions, and who of a yard may sign in. */
export async function restore(
  { database, here, there, stranger, accounts }: World,
  strangers: readonly { readonly accountId: string | null; readonly token: string | null }[] = [],
): Promise<void> {
  const { owner } = database;
  const members = [here, there].flatMap(({ yardId, people }) =>
    Object.values(people).map((person) => ({ yardId, ...person })),
  );
  const spares = (accounts.get('session') ?? []).map(({ id, of }) => ({
    id,
    accountId: of ?? '',
    tokenHash: hashOf(id),
    expiresAt: later(),
  }));
  const own = [...members, stranger, ...strangers].map(({ accountId, token }) => ({
    id: crypto.randomUUID(),
    accountId: accountId ?? '',
    tokenHash: hashOf(token ?? ''),
    expiresAt: later(),
  }));
  await owner.session.createMany({ data: [...own, ...spares], skipDuplicates: true });
  await owner.yard.updateMany({
    where: { secondFactorRequired: true },
    data: { secondFactorRequired: false },
  });
  const gone = { accountId: null, id: { in: members.map(({ memberId }) => memberId) } };
  if ((await owner.member.count({ where: gone })) === 0) return;
  for (const { yardId, memberId, accountId } of members) {
    await owner.member.updateMany({
      where: { yardId, id: memberId, accountId: null },
      data: { accountId },
    });
  }
}
