import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Entry, enter, type Transaction } from '#persistence/client.ts';
import { outsideTheWall } from '#persistence/reach.ts';
import { refusalOf } from '#persistence/refusal.ts';
import { testDatabase } from '#tests/support/database.ts';
import { leaveTheWallAlone, tablesOf, type WalledTable } from './wall/bare.ts';
import { others, plantAccount, plantYard } from './wall/plant.ts';

const database = testDatabase();

const ids = { ann: randomUUID(), ben: randomUUID(), bea: randomUUID(), bob: randomUUID() };
const member = (accountId: string, yardId = 'a', sees: 'all' | 'own' = 'all'): Entry => ({
  as: 'member',
  yardId,
  accountId,
  sees,
});
const account = (accountId: string): Entry => ({ as: 'account', accountId });
const nobody: Entry = { as: 'nobody' };

let tables: readonly WalledTable[] = [];
const of = (whose: WalledTable['of']): readonly WalledTable[] =>
  tables.filter((table) => table.of === whose);

beforeAll(async () => {
  const { owner, adminUrl } = database;
  for (const id of Object.values(ids)) await plantAccount(owner, id);
  await plantYard(owner, 'a', { ann: ids.ann, ben: ids.ben });
  await plantYard(owner, 'b', { ann: ids.bea, ben: ids.bob });
  tables = await tablesOf(adminUrl);
  await leaveTheWallAlone(adminUrl, tables);
});

const undo = new Error('not to be kept');

/** One transaction of the service, undone at its end; `trying` undoes one statement in it at once. */
async function undone(
  entry: Entry | null,
  work: (tx: Transaction) => Promise<void>,
): Promise<void> {
  const ending = database.service.$transaction(
    async (tx) => {
      if (entry !== null) await enter(tx, entry);
      await tx.$executeRaw`SAVEPOINT before`;
      await work(tx);
      throw undo;
    },
    { timeout: 60_000 },
  );
  await ending.catch((error: unknown) => {
    if (error !== undo) throw error;
  });
}

async function trying<T>(tx: Transaction, work: Promise<T>): Promise<T> {
  try {
    return await work;
  } finally {
    await tx.$executeRaw`ROLLBACK TO SAVEPOINT before`;
  }
}

/** Whose rows a statement gave, each owner of rows with their number. */
async function whose(tx: Transaction, sql: string): Promise<Record<string, number>> {
  const rows = await trying(tx, tx.$queryRawUnsafe<{ key: string }[]>(sql));
  return counted(rows.map(({ key }) => key));
}

function counted(keys: readonly string[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const key of keys) counts[key] = (counts[key] ?? 0) + 1;
  return counts;
}

/** All rows there are, as the owner of the table sees them. */
async function planted({ name, key }: WalledTable): Promise<Record<string, number>> {
  const rows = await database.owner.$queryRawUnsafe<{ key: string }[]>(
    `SELECT ${key}::text AS key FROM ${name}`,
  );
  return counted(rows.map((row) => row.key));
}

/** What the database says to a statement that it should refuse. */
async function said(tx: Transaction, sql: string, ...values: unknown[]): Promise<string> {
  try {
    const count = await trying(tx, tx.$executeRawUnsafe(sql, ...values));
    return `done to ${String(count)} rows`;
  } catch (error) {
    return refusalOf(error)?.constraint ?? String(error);
  }
}

const refused = expect.stringContaining('row-level security') as string;

async function rowOf({ name, key }: WalledTable, owner: string): Promise<string> {
  const [{ row }] = await database.owner.$queryRawUnsafe<[{ row: unknown }]>(
    `SELECT to_jsonb(t) AS row FROM ${name} t WHERE ${key}::text = '${owner}' LIMIT 1`,
  );
  return JSON.stringify(row);
}

/** For each table: reads and changes without a `where`, and writes into what is somebody else's. */
async function findings(
  entry: Entry,
  walled: readonly WalledTable[],
  mine: string,
  theirs: string,
): Promise<Record<string, unknown>> {
  const found: Record<string, unknown> = {};
  await undone(entry, async (tx) => {
    for (const table of walled) {
      const { name, key } = table;
      found[name] = {
        seen: await whose(tx, `SELECT ${key}::text AS key FROM ${name}`),
        // Neither reads a column: only policies of the statement itself hold it.
        changed: await said(tx, `UPDATE ${name} SET ${key} = '${mine}'`),
        deleted: await said(tx, `DELETE FROM ${name}`),
        added: await said(
          tx,
          `INSERT INTO ${name} SELECT * FROM jsonb_populate_record(NULL::${name}, $1::jsonb)`,
          await rowOf(table, theirs),
        ),
        given: await said(tx, `UPDATE ${name} SET ${key} = '${theirs}' WHERE ${key} = '${mine}'`),
      };
    }
  });
  return found;
}

/** What should be found: all of one's own, nothing of the others', no write across. */
async function expectations(
  walled: readonly WalledTable[],
  mine: string,
  theirs: string,
): Promise<Record<string, unknown>> {
  const expected: Record<string, unknown> = {};
  for (const table of walled) {
    const all = await planted(table);
    expect({ table: table.name, mine: all[mine], theirs: all[theirs] }).toEqual({
      table: table.name,
      mine: expect.any(Number) as number,
      theirs: expect.any(Number) as number,
    });
    const done = `done to ${String(all[mine])} rows`;
    expected[table.name] = {
      seen: { [mine]: all[mine] },
      changed: done,
      deleted: done,
      added: refused,
      given: refused,
    };
  }
  return expected;
}

describe('every table', () => {
  it('is a yard’s or an account’s and has row security, or is on a short list with its reason', async () => {
    const rows = await database.owner.$queryRaw<{ name: string; policies: number }[]>`
      SELECT c.relname::text AS name, count(p.polname)::int AS policies
      FROM pg_class c LEFT JOIN pg_policy p ON p.polrelid = c.oid
      WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND c.relrowsecurity
      GROUP BY c.oid`;
    const walled = new Map(rows.map(({ name, policies }) => [name, policies]));
    const open = tables.filter(({ name }) => !walled.has(name)).map(({ name }) => name);
    expect(open).toEqual(Object.keys(outsideTheWall).sort());
    expect(of('nobody').map(({ name }) => name)).toEqual(open);
    expect([...walled].filter(([, policies]) => policies === 0)).toEqual([]);
    expect(of('yard').length).toBeGreaterThan(50);
    expect(of('account')).toHaveLength(9);
  });
});

describe('a forgotten where', () => {
  it('of a foreman reaches the own yard and no other, in every table', async () => {
    const expected = await expectations(of('yard'), 'a', 'b');
    expect(await findings(member(ids.ann), of('yard'), 'a', 'b')).toEqual(expected);
  });

  it('of the worker reaches the yard that it works for', async () => {
    const entry: Entry = { as: 'service', yardId: 'b' };
    const expected = await expectations(of('yard'), 'b', 'a');
    expect(await findings(entry, of('yard'), 'b', 'a')).toEqual(expected);
  });

  it('as an account reaches what is its own, in every table of accounts', async () => {
    const expected = await expectations(of('account'), ids.ann, ids.bea);
    const found = await findings(account(ids.ann), of('account'), ids.ann, ids.bea);
    expect(found).toEqual(expected);
  });

  it.each([
    ['nothing was entered', null],
    ['nobody was', nobody],
  ] as const)('reaches no row at all where %s', async (_, entry) => {
    await undone(entry, async (tx) => {
      for (const { name, key, of: whoseRows } of [...of('yard'), ...of('account')]) {
        expect([name, await whose(tx, `SELECT ${key}::text AS key FROM ${name}`)]).toEqual([
          name,
          {},
        ]);
        for (const sql of [
          `UPDATE ${name} SET ${key} = '${whoseRows === 'yard' ? 'a' : ids.ann}'`,
          `DELETE FROM ${name}`,
        ]) {
          expect([sql, await said(tx, sql)]).toEqual([sql, 'done to 0 rows']);
        }
      }
    });
  });

  it('in a yard reaches no account, not even one’s own', async () => {
    await undone(member(ids.ann), async (tx) => {
      for (const { name, key } of of('account')) {
        const seen = await whose(tx, `SELECT ${key}::text AS key FROM ${name}`);
        expect([name, seen]).toEqual([name, {}]);
      }
    });
  });

  it('as an account reads its memberships and their yards, and changes neither', async () => {
    const seen: Record<string, unknown> = {};
    await undone(account(ids.ann), async (tx) => {
      for (const { name, key } of of('yard')) {
        const rows = await whose(tx, `SELECT ${key}::text AS key FROM ${name}`);
        if (Object.keys(rows).length > 0) seen[name] = rows;
      }
      for (const name of Object.keys(seen)) {
        expect(await said(tx, `UPDATE ${name} SET name = 'Mine'`)).toBe('done to 0 rows');
        expect(await said(tx, `DELETE FROM ${name}`)).toBe('done to 0 rows');
      }
    });
    expect(seen).toEqual({ member: { a: 1 }, yard: { a: 1 } });
  });
});

/** Whose an owner's rows are, by the column that tells; of the other boat's it begins with `other`. */
const ownersTables: Readonly<Partial<Record<string, string>>> = {
  boat: 'id',
  refit: 'id',
  part: 'id',
  part_layer: 'part_id',
  job: 'id',
  task: 'id',
  // Of what was planted for each boat, these say which.
  snag: 'words',
  snag_photo: 'added_by_id',
  change_order: 'refit_id',
};

/** What is the maker's own, owner or not. */
const makersTables: Readonly<Partial<Record<string, string>>> = {
  event: 'by_member_id',
  idempotency_key: 'member_id',
  program_key: 'member_id',
  calendar_link: 'member_id',
};

describe.each([
  ['an owner who is nothing else', 'ben', member(ids.ben, 'a', 'own')],
  ['an owner whom the service takes for more', 'ben', member(ids.ben, 'a', 'all')],
] as const)('%s', (_, person, entry) => {
  it('sees the own boats and what hangs on them, and nothing of other tables', async () => {
    await undone(entry, async (tx) => {
      for (const { name, key } of of('yard')) {
        const column = ownersTables[name] ?? makersTables[name] ?? (name === 'member' ? 'id' : key);
        const seen = await whose(tx, `SELECT ${column} AS key FROM ${name}`);
        if (name in ownersTables) {
          const all = await database.owner.$queryRawUnsafe<{ key: string }[]>(
            `SELECT ${column} AS key FROM ${name} WHERE yard_id = 'a'`,
          );
          const own = all.map((row) => row.key).filter((text) => !text.startsWith(others));
          expect([name, own.length > 0 && own.length < all.length]).toEqual([name, true]);
          expect([name, seen]).toEqual([name, counted(own)]);
        } else if (name in makersTables || name === 'member') {
          expect([name, seen]).toEqual([name, { [person]: 1 }]);
        } else {
          expect([name, seen]).toEqual([name, name === 'yard' ? { a: 1 } : {}]);
        }
      }
    });
  });

  it('writes nothing but what makers write', async () => {
    await undone(entry, async (tx) => {
      const apart = new Set([...Object.keys(makersTables), 'change_order']);
      for (const table of of('yard').filter(({ name }) => !apart.has(name))) {
        const { name, key } = table;
        expect([name, await said(tx, `UPDATE ${name} SET ${key} = ${key}`)]).toEqual([
          name,
          'done to 0 rows',
        ]);
        expect([name, await said(tx, `DELETE FROM ${name}`)]).toEqual([name, 'done to 0 rows']);
        const copy = `INSERT INTO ${name} SELECT * FROM jsonb_populate_record(NULL::${name}, $1::jsonb)`;
        expect([name, await said(tx, copy, await rowOf(table, 'a'))]).toEqual([name, refused]);
      }
    });
  });
});

it('an owner asks for and decides changes of the own boats, and of no other', async () => {
  const ask = (refit: string, by: string): string =>
    `INSERT INTO change_order (yard_id, refit_id, kind, input, words, raised_by_id)
     VALUES ('a', '${refit}', 'size', '{}', '', '${by}')`;
  await undone(member(ids.ben, 'a', 'own'), async (tx) => {
    expect(await said(tx, "UPDATE change_order SET state = 'declined'")).toBe('done to 1 rows');
    expect(await said(tx, `UPDATE change_order SET refit_id = '${others}-refit'`)).toEqual(refused);
    expect(await said(tx, 'DELETE FROM change_order')).toBe('done to 0 rows');
    expect(await said(tx, ask('heron-27', 'ben'))).toBe('done to 1 rows');
    expect(await said(tx, ask('heron-27', 'ann'))).toEqual(refused);
    expect(await said(tx, ask(`${others}-refit`, 'ben'))).toEqual(refused);
  });
});

it('who is asked to see only the own does, whatever else they are', async () => {
  await undone(member(ids.ann, 'a', 'own'), async (tx) => {
    expect(await whose(tx, 'SELECT id AS key FROM boat')).toEqual({});
    expect(await whose(tx, 'SELECT member_id AS key FROM program_key')).toEqual({ ann: 1 });
  });
});

it('a challenge of a sign-in can be left by anybody, and is read by nobody', async () => {
  const leave = `INSERT INTO passkey_challenge (challenge, expires_at) VALUES ('c', now() + interval '1 h')`;
  await database.owner.$executeRawUnsafe(leave);
  await undone(nobody, async (tx) => {
    expect(await said(tx, leave)).toBe('done to 1 rows');
    expect(await whose(tx, 'SELECT challenge AS key FROM passkey_challenge')).toEqual({});
  });
});
