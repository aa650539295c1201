import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  type Actor,
  asAccount,
  createClient,
  enter,
  inYard,
  nowhere,
  service,
  type Transaction,
} from '#persistence/client.ts';
import { sqlStateOf } from '#persistence/refusal.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { smallYard } from '#tests/integration/persistence/small-yard.ts';
import { testDatabase } from '#tests/support/database.ts';

const database = testDatabase();

const ann = randomUUID();
const ben = randomUUID();
const as = (yardId: string, accountId: string, sees: 'all' | 'own' = 'all'): Actor => ({
  as: 'member',
  yardId,
  accountId,
  sees,
});
const found = <T>(
  yardId: string,
  accountId: string,
  founder: string,
  work: (tx: Transaction) => Promise<T>,
): Promise<T> =>
  inYard(database.service, { as: 'member', yardId, accountId, sees: 'all', founder }, work);

interface Settings {
  readonly yard: string | null;
  readonly account: string | null;
  readonly person: string | null;
  readonly sees: string | null;
}

const settings = async (tx: Pick<Transaction, '$queryRaw'>): Promise<Settings> => {
  const [row] = await tx.$queryRaw<[Settings]>`
    SELECT current_setting('curewright.yard', true) AS yard,
           current_setting('curewright.account', true) AS account,
           current_setting('curewright.person', true) AS person,
           current_setting('curewright.sees', true) AS sees`;
  return row;
};
const nothing = { yard: '', account: '', person: '' };

beforeAll(async () => {
  for (const [id, email] of [
    [ann, 'ann@yard.test'],
    [ben, 'ben@yard.test'],
  ] as const) {
    await asAccount(database.service, id, (tx) =>
      tx.account.create({ data: { id, email, name: email } }),
    );
  }
  await found('a', ann, 'ann', (tx) =>
    saveYard(tx, smallYard('a'), { memberId: 'ann', accountId: ann }),
  );
  await inYard(database.service, service('a'), (tx) =>
    tx.member.updateMany({ where: { id: 'ben' }, data: { accountId: ben } }),
  );
  await found('b', ben, 'ann', (tx) =>
    saveYard(tx, smallYard('b'), { memberId: 'ann', accountId: ben }),
  );
});

describe('a transaction', () => {
  it('knows who the account is in the yard, from the database alone', async () => {
    expect(await inYard(database.service, as('a', ann), settings)).toEqual({
      yard: 'a',
      account: ann,
      person: 'ann',
      sees: 'all',
    });
    expect(await inYard(database.service, as('a', ben), settings)).toMatchObject({
      person: 'ben',
      sees: 'own',
    });
    expect(await inYard(database.service, as('b', ben), settings)).toMatchObject({
      person: 'ann',
      sees: 'all',
    });
    expect(await inYard(database.service, as('b', ben, 'own'), settings)).toMatchObject({
      sees: 'own',
    });
    expect(await inYard(database.service, service('a'), settings)).toEqual({
      ...nothing,
      yard: 'a',
      sees: 'all',
    });
  });

  it.each([
    ['of another’s', 'b', ann],
    ['that is not there', 'c', ann],
    ['for an account that is not there', 'a', randomUUID()],
  ])('does not enter a yard %s, with the same words', async (_, yardId, accountId) => {
    let entered = false;
    const trying = inYard(database.service, as(yardId, accountId), () => {
      entered = true;
      return Promise.resolve();
    });
    await expect(trying).rejects.toMatchObject({
      code: 'record.missing',
      message: 'There is no such yard.',
    });
    expect(entered).toBe(false);
  });

  it('goes over to whom it learns of, and leaves what it had entered', async () => {
    await nowhere(database.service, async (tx) => {
      expect(await tx.account.count()).toBe(0);
      await enter(tx, { as: 'account', accountId: ben });
      expect(await tx.account.findMany({ select: { id: true } })).toEqual([{ id: ben }]);
      await enter(tx, as('a', ann));
      expect(await tx.account.count()).toBe(0);
      expect(await tx.yard.findMany({ select: { id: true } })).toEqual([{ id: 'a' }]);
      await enter(tx, { as: 'nobody' });
      expect(await tx.yard.count()).toBe(0);
    });
  });
});

describe('founding', () => {
  it('of a yard that is there is refused, to its members too', async () => {
    for (const accountId of [ann, ben]) {
      const again = found('a', accountId, 'zoe', (tx) => tx.yard.findMany());
      await expect(again).rejects.toMatchObject({ code: 'record.exists' });
    }
  });

  it('of one yard by two at once: the second waits, and finds it there', async () => {
    const begun = Promise.withResolvers<undefined>();
    const first = found('race', ann, 'ann', async (tx) => {
      begun.resolve(undefined);
      await saveYard(tx, smallYard('race'), { memberId: 'ann', accountId: ann });
    });
    await begun.promise;
    const second = found('race', ben, 'ben', (tx) => tx.member.findMany());
    await expect(second).rejects.toMatchObject({ code: 'record.exists' });
    await first;
  });
});

describe('a connection of the pool', () => {
  it('carries nothing from one transaction into the next, done, undone or refused', async () => {
    const one = createClient(database.serviceUrl, { connections: 1 });
    try {
      const pid = async (): Promise<unknown> => {
        const rows = await one.$queryRaw<{ pid: number }[]>`SELECT pg_backend_pid() AS pid`;
        return rows[0].pid;
      };
      const first = await pid();
      const fail = (): Promise<never> => Promise.reject(new Error('undone'));
      for (const [work, says] of [
        [() => inYard(one, as('a', ann), settings), null],
        [() => inYard(one, as('a', ann), fail), 'undone'],
        [() => inYard(one, as('b', ann), settings), 'There is no such yard.'],
        [() => asAccount(one, ann, settings), null],
        [() => inYard(one, service('b'), settings), null],
      ] as const) {
        if (says === null) await work();
        else await expect(work()).rejects.toThrow(says);
        expect(await settings(one)).toEqual({ ...nothing, sees: '' });
        expect(await one.boat.count()).toBe(0);
        expect(await one.account.count()).toBe(0);
      }
      expect(await pid()).toBe(first);
    } finally {
      await one.$disconnect();
    }
  });

  it('ends a statement, a wait for a lock and an idle transaction in their time', async () => {
    const short = createClient(database.serviceUrl, {
      connections: 2,
      statementMs: 400,
      lockMs: 100,
      idleMs: 300,
    });
    try {
      const slow = await short.$queryRaw`SELECT 1 FROM pg_sleep(5)`.catch(
        (error: unknown) => error,
      );
      expect(sqlStateOf(slow)).toBe('57014');
      const rename = (tx: Transaction): Promise<unknown> =>
        tx.boat.updateMany({ data: { name: 'Heron' } });
      const waited = await inYard(database.service, service('a'), async (tx) => {
        await rename(tx);
        return inYard(short, service('a'), rename).catch((error: unknown) => error);
      });
      expect(sqlStateOf(waited)).toBe('55P03');
      const idle = inYard(short, service('a'), async (tx) => {
        await new Promise((resolve) => setTimeout(resolve, 700));
        return tx.boat.count();
      });
      await expect(idle).rejects.toThrow();
    } finally {
      await short.$disconnect();
    }
  });
});
