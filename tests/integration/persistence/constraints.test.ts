import { beforeAll, describe, expect, it } from 'vitest';
import { inYard, type Transaction, withoutYard } from '#persistence/client.ts';
import { type Refusal, refusalOf } from '#persistence/refusal.ts';
import { loadWorkload, saveTasks } from '#persistence/workload/store.ts';
import { loadYard, saveYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { testDatabase } from '#tests/support/database.ts';
import { forbidden } from './forbidden.ts';
import { smallYard } from './small-yard.ts';

const database = testDatabase();

const within = <T>(work: (tx: Transaction) => Promise<T>): Promise<T> =>
  inYard(database.service, { yardId: 'y', personId: null }, work);

async function refused(statements: readonly string[]): Promise<Refusal | null> {
  try {
    await within(async (tx) => {
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
    await inYard(database.service, { yardId: id, personId: null }, async (tx) => {
      await saveYard(tx, yard);
      await saveTasks(tx, id, makeWorkload(yard));
    });
  }
  await within((tx) => tx.boat.create({ data: { yardId: 'y', id: 'only-y', name: 'Only here' } }));
  await withoutYard(database.service, (tx) =>
    tx.account.create({
      data: { id: '00000000-0000-4000-8000-000000000001', email: 'a@b.c', name: 'A' },
    }),
  );
});

describe('the database refuses', () => {
  it.each(forbidden)('$constraint', async ({ constraint, sql }) => {
    const refusal = await refused(typeof sql === 'string' ? [sql] : sql);
    expect(refusal?.constraint).toBe(constraint);
  });

  it('by every check and exclusion that it has', async () => {
    const rows = await within(
      (tx) => tx.$queryRaw<{ name: string }[]>`
        SELECT conname AS name FROM pg_constraint
        WHERE connamespace = 'public'::regnamespace AND contype IN ('c', 'x')`,
    );
    const tried = new Set(forbidden.map(({ constraint }) => constraint));
    expect(rows.length).toBeGreaterThan(50);
    expect(rows.map(({ name }) => name).filter((name) => !tried.has(name))).toEqual([]);
  });
});

describe('every row belongs to a yard', () => {
  const global = ['account', 'session', 'yard', '_prisma_migrations'];

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
    const error: unknown = await inYard(database.service, { yardId: 'z', personId: null }, (tx) =>
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
  it('says for whom it works, and only while it does', async () => {
    const said = await inYard(
      database.service,
      { yardId: 'y', personId: 'ann' },
      (tx) => tx.$queryRaw<{ yard: string; person: string }[]>`
        SELECT current_setting('curewright.yard') AS yard, current_setting('curewright.person') AS person`,
    );
    expect(said).toEqual([{ yard: 'y', person: 'ann' }]);
    const after = await withoutYard(
      database.service,
      (tx) => tx.$queryRaw<{ yard: string }[]>`SELECT current_setting('curewright.yard') AS yard`,
    );
    expect(after).toEqual([{ yard: '' }]);
  });

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

describe('row-level security', () => {
  it('can be switched on for every table of a yard, and no query changes', async () => {
    const load = (yardId: string): Promise<unknown> =>
      inYard(database.service, { yardId, personId: null }, async (tx) => {
        const workload = await loadWorkload(tx, yardId);
        await saveTasks(tx, yardId, workload);
        return { yard: await loadYard(tx, yardId), workload };
      });
    const before = [await load('y'), await load('z')];
    await database.owner.$executeRaw`
      DO $$
      DECLARE name text;
      BEGIN
        FOR name IN SELECT table_name FROM information_schema.columns
                    WHERE table_schema = 'public' AND column_name = 'yard_id' LOOP
          EXECUTE format('CREATE POLICY own_yard ON %I USING (yard_id = current_setting(''curewright.yard''))', name);
          EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', name);
        END LOOP;
      END $$`;
    expect([await load('y'), await load('z')]).toEqual(before);
    const seen = await within((tx) => tx.task.groupBy({ by: ['yardId'] }));
    expect(seen).toEqual([{ yardId: 'y' }]);
    const written = within((tx) =>
      tx.tool.create({ data: { yardId: 'z', id: 'theirs', name: 'Theirs', count: 1 } }),
    );
    await expect(written).rejects.toThrow('row-level security');
  });
});
