import { beforeAll, describe, expect, it } from 'vitest';
import { asAccount, inYard, service, type Transaction } from '#persistence/client.ts';
import { type Refusal, refusalOf } from '#persistence/refusal.ts';
import { saveTasks } from '#persistence/workload/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { testDatabase } from '#tests/support/database.ts';
import {
  accountId,
  forbiddenToAccounts,
  forbiddenToOwner,
  takenEmail,
} from './forbidden-access.ts';
import { forbidden } from './forbidden.ts';
import { smallYard } from './small-yard.ts';

const database = testDatabase();

const within = <T>(work: (tx: Transaction) => Promise<T>): Promise<T> =>
  inYard(database.service, service('y'), work);

/** As which of the three the statements are tried. */
const tried = {
  service: within,
  account: <T>(work: (tx: Transaction) => Promise<T>) =>
    asAccount(database.service, accountId, work),
  owner: <T>(work: (tx: Transaction) => Promise<T>) => inYard(database.owner, service('y'), work),
};

async function refused(
  statements: readonly string[],
  as: keyof typeof tried = 'service',
): Promise<Refusal | null> {
  try {
    await tried[as](async (tx) => {
      for (const sql of statements) await tx.$executeRawUnsafe(sql);
    });
    return null;
  } catch (error) {
    const refusal = refusalOf(error);
    if (refusal === null) throw error;
    return refusal;
  }
}

beforeAll(async () => {
  for (const id of ['y', 'z']) {
    const yard = smallYard(id);
    await inYard(database.service, service(id), async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, id, makeWorkload(yard));
    });
  }
  await within((tx) => tx.boat.create({ data: { yardId: 'y', id: 'only-y', name: 'Only here' } }));
  await database.owner.account.createMany({
    data: [
      { id: accountId, email: 'a@b.c', name: 'A' },
      { email: takenEmail, name: 'B' },
    ],
  });
});

describe('the database refuses', () => {
  it.each(forbidden)('$constraint', async ({ constraint, sql }) => {
    const refusal = await refused(typeof sql === 'string' ? [sql] : sql);
    expect(refusal?.constraint).toBe(constraint);
  });

  it.each(forbiddenToAccounts)('an account $constraint', async ({ constraint, sql }) => {
    expect((await refused([sql], 'account'))?.constraint).toBe(constraint);
  });

  it.each(forbiddenToOwner)('even its owner $constraint', async ({ constraint, sql }) => {
    expect((await refused([sql], 'owner'))?.constraint).toBe(constraint);
  });

  it('by every check and exclusion that it has', async () => {
    const rows = await within(
      (tx) => tx.$queryRaw<{ name: string }[]>`
        SELECT conname AS name FROM pg_constraint
        WHERE connamespace = 'public'::regnamespace AND contype IN ('c', 'x')`,
    );
    const all = [...forbidden, ...forbiddenToAccounts, ...forbiddenToOwner];
    const names = new Set(all.map(({ constraint }) => constraint));
    expect(rows.length).toBeGreaterThan(50);
    expect(rows.map(({ name }) => name).filter((name) => !names.has(name))).toEqual([]);
  });
});

describe('every row belongs to a yard', () => {
  /** What hangs on an account, or on nothing. */
  const global = [
    ...['account', 'session', 'pending_sign_in', 'password_reset', 'totp', 'recovery_code'],
    ...[
      'passkey',
      'passkey_challenge',
      'push_subscription',
      'rate_limit',
      'yard',
      '_prisma_migrations',
    ],
    // Its first column is the chain, which is the yard or, for accounts, none.
    'audit',
  ];

  it('by a primary key that begins with it', async () => {
    const tables = await within(
      (tx) => tx.$queryRaw<{ name: string; first: string | null }[]>`
        SELECT c.relname AS name, a.attname AS first FROM pg_class c
        LEFT JOIN pg_constraint p ON p.conrelid = c.oid AND p.contype = 'p'
        LEFT JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = p.conkey[1]
        WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r'`,
    );
    const theirs = tables.filter(({ name }) => !global.includes(name));
    expect(theirs.length).toBeGreaterThan(35);
    expect(theirs.filter(({ first }) => first !== 'yard_id')).toEqual([]);
  });

  it('and every reference stays in it', async () => {
    // Pairs of columns of each foreign key, as `column=column` of the one and the other table.
    const keys = await within(
      (tx) => tx.$queryRaw<{ name: string; target: string; pairs: string[] }[]>`
        SELECT k.conname AS name, k.confrelid::regclass::text AS target,
               array_agg(here.attname || '=' || there.attname) AS pairs
        FROM pg_constraint k, LATERAL unnest(k.conkey, k.confkey) AS pair (mine, other),
             pg_attribute here, pg_attribute there
        WHERE k.contype = 'f' AND k.connamespace = 'public'::regnamespace
          AND here.attrelid = k.conrelid AND here.attnum = pair.mine
          AND there.attrelid = k.confrelid AND there.attnum = pair.other
        GROUP BY k.conname, k.confrelid`,
    );
    expect(keys.length).toBeGreaterThan(50);
    const loose = keys.filter(
      ({ target, pairs }) =>
        target !== 'account' &&
        !pairs.includes(target === 'yard' ? 'yard_id=id' : 'yard_id=yard_id'),
    );
    expect(loose).toEqual([]);
    const error: unknown = await inYard(database.service, service('z'), (tx) =>
      tx.refit.create({
        data: { yardId: 'z', id: 'r', boatId: 'only-y', name: 'R', release: new Date(), weight: 1 },
      }),
    ).catch((caught: unknown) => caught);
    expect(refusalOf(error)).toEqual({
      kind: 'reference',
      constraint: 'refit_yard_id_boat_id_fkey',
    });
  });
});

describe('what is in use', () => {
  it.each([
    ['skill', 'laminate', /_skill_id_fkey$/],
    ['material', 'resin', /_material_id_fkey$/],
    ['tool', 'sander', /_tool_id_fkey$/],
    ['space', 'hull', /_space_id_fkey$/],
    ['member', 'ben', 'boat_yard_id_owner_id_fkey'],
    ['part', 'deck', /_part_id_fkey$/],
    ['boat', 'heron', 'refit_yard_id_boat_id_fkey'],
  ])('%s cannot be deleted', async (table, id, constraint) => {
    const refusal = await refused([`DELETE FROM ${table} WHERE yard_id = 'y' AND id = '${id}'`]);
    expect(refusal).toEqual({
      kind: 'reference',
      constraint: expect.stringMatching(constraint) as string,
    });
  });
});

describe('claims', () => {
  it('fifty at once of one task: one is made, the others are refused by claim_one_open', async () => {
    const attempts = await Promise.allSettled(
      Array.from({ length: 50 }, (_, attempt) =>
        within((tx) =>
          tx.claim.create({
            data: { yardId: 'y', taskId: 'first.wet', memberId: attempt % 2 === 0 ? 'ann' : 'ben' },
          }),
        ),
      ),
    );
    const failures = attempts.flatMap((attempt) =>
      attempt.status === 'rejected' ? [refusalOf(attempt.reason)] : [],
    );
    expect(failures).toHaveLength(49);
    expect(new Set(failures.map((refusal) => refusal?.constraint))).toEqual(
      new Set(['claim_one_open']),
    );
  });

  it('a released one makes way for the next', async () => {
    await within((tx) =>
      tx.claim.updateMany({
        where: { yardId: 'y', taskId: 'first.wet', status: 'open' },
        data: { status: 'released', releasedAt: new Date() },
      }),
    );
    await within((tx) =>
      tx.claim.create({ data: { yardId: 'y', taskId: 'first.wet', memberId: 'ben' } }),
    );
    const claims = await within((tx) =>
      tx.claim.findMany({ where: { yardId: 'y', taskId: 'first.wet' } }),
    );
    expect(claims.map(({ status }) => status).sort()).toEqual(['open', 'released']);
  });
});

describe('revisions', () => {
  it('grow by one with each update, whatever it writes', async () => {
    const where = { yardId_id: { yardId: 'y', id: 'only-y' } };
    const before = await within((tx) => tx.boat.findUniqueOrThrow({ where }));
    const after = await within((tx) =>
      tx.boat.update({ where, data: { name: 'New', revision: 77 } }),
    );
    expect(after.revision).toBe(before.revision + 1);
    expect(after.updatedAt.getTime()).toBeGreaterThanOrEqual(before.updatedAt.getTime());
  });

  it('let one of two writers win who read the same', async () => {
    const { revision } = await within((tx) =>
      tx.tool.findUniqueOrThrow({ where: { yardId_id: { yardId: 'y', id: 'sander' } } }),
    );
    const write = (count: number): Promise<{ count: number }> =>
      within((tx) =>
        tx.tool.updateMany({ where: { yardId: 'y', id: 'sander', revision }, data: { count } }),
      );
    const counts = (await Promise.all([write(2), write(3)])).map(({ count }) => count);
    expect(counts.sort()).toEqual([0, 1]);
  });
});

describe('a transaction', () => {
  it('that deadlocks with another is run again', async () => {
    let attempts = 0;
    const meeting = Promise.withResolvers<undefined>();
    let met = 0;
    const rename = (first: string, second: string): Promise<unknown> =>
      within(async (tx) => {
        attempts += 1;
        await tx.skill.update({
          where: { yardId_id: { yardId: 'y', id: first } },
          data: { name: first },
        });
        met += 1;
        if (met === 2) meeting.resolve(undefined);
        await meeting.promise;
        await tx.skill.update({
          where: { yardId_id: { yardId: 'y', id: second } },
          data: { name: second },
        });
      });
    await Promise.all([rename('laminate', 'sand'), rename('sand', 'laminate')]);
    expect(attempts).toBe(3);
  });
});
