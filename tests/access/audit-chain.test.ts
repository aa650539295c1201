import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { Client } from 'pg';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Fault, headOf, type Verdict, verifyChain } from '#persistence/audit/verify.ts';
import { inYard, service, type Transaction } from '#persistence/client.ts';
import { withClient } from '#persistence/roles.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { readYard } from '#planning/yard/read.ts';
import { testDatabase } from '../support/database.ts';
import { smallYard } from '../support/small-yard.ts';

const database = testDatabase();

const inSmall = <T>(work: (tx: Transaction) => Promise<T>): Promise<T> =>
  inYard(database.service, service('small'), work);
const asOwner = <T>(use: (owner: Client) => Promise<T>): Promise<T> =>
  withClient(database.ownerUrl, use);
const addSkill = (tx: Transaction, id: string) =>
  tx.skill.create({ data: { yardId: 'small', id, name: id } });

beforeAll(async () => {
  const yard = readYard(smallYard(), 'small');
  await inSmall((tx) => saveYard(tx, yard));
});

/** What `verify` says of the chain once somebody with all rights has done something to it; then undone. */
async function tampered(
  statements: readonly string[],
  head: string | null = null,
): Promise<Verdict> {
  return asOwner(async (owner) => {
    await owner.query('BEGIN; ALTER TABLE audit DISABLE TRIGGER USER');
    try {
      for (const sql of statements) expect((await owner.query(sql)).rowCount, sql).not.toBe(0);
      return await verifyChain(owner, 'small', head);
    } finally {
      await owner.query('ROLLBACK');
    }
  });
}

const kindOf = (fault: Fault | null): string =>
  fault === null ? 'whole' : `${fault.kind} ${String(fault.number)}`;

/** Numbers of this row and those after it, moved: far away first, since they are unique at each step. */
const moved = (from: number, by: number): string[] => [
  `UPDATE audit SET number = number + 1000000 WHERE chain = 'small' AND number >= ${String(from)}`,
  `UPDATE audit SET number = number - 1000000 + (${String(by)}) WHERE chain = 'small' AND number > 1000000`,
];

/** Puts each row's hash right after the one before it, as the writer would have. */
const rehashed = (from: number): string => `
  DO $$
  DECLARE
    entry audit;
    previous bytea;
  BEGIN
    SELECT hash INTO previous FROM audit WHERE chain = 'small' AND number = ${String(from)} - 1;
    FOR entry IN SELECT * FROM audit WHERE chain = 'small' AND number >= ${String(from)} ORDER BY number
    LOOP
      previous := audit_hash(previous, entry);
      UPDATE audit SET hash = previous WHERE chain = 'small' AND number = entry.number;
    END LOOP;
  END $$`;

describe('a chain', () => {
  test('is whole as it was written, in every part that is hashed', async () => {
    const { verdict, head, stored } = await asOwner(async (owner) => ({
      verdict: await verifyChain(owner, 'small'),
      head: await headOf(owner, 'small'),
      stored: await owner.query<{ count: string }>(
        "SELECT count(*) FROM audit WHERE chain = 'small'",
      ),
    }));
    expect(verdict.fault).toBeNull();
    expect(verdict.rows).toBe(BigInt(stored.rows[0].count));
    expect(verdict.rows).toBeGreaterThan(30n);
    expect(verdict.head).toEqual(head);
  });

  const at = (number: number): string => `WHERE chain = 'small' AND number = ${String(number)}`;
  test.each([
    ['what is said to be after', `after = jsonb_set(after, '{name}', '"Else"')`],
    ['a key', `key = '{"id": "else"}'`],
    ['who did it', `member_id = 'bram'`],
    ['whose account did it', `account_id = gen_random_uuid()`],
    ['when', `at = at - interval '1 day'`],
    ['the kind of record', `record = 'boat'`],
    ['the hash', `hash = sha256('else')`],
  ])('shows that %s was altered', async (_what, set) => {
    const { fault, rows } = await tampered([`UPDATE audit SET ${set} ${at(20)}`]);
    expect([kindOf(fault), rows]).toEqual(['changed 20', 19n]);
  });

  test('shows that a change was turned into another', async () => {
    const { fault } = await tampered([
      `UPDATE audit SET change = 'delete', before = after, after = NULL ${at(20)}`,
    ]);
    expect(kindOf(fault)).toBe('changed 20');
  });

  test('shows that a row was taken out, wherever, and though the others close up', async () => {
    const gone = `DELETE FROM audit ${at(20)}`;
    expect(kindOf((await tampered([gone])).fault)).toBe('missing 20');
    expect(kindOf((await tampered([`DELETE FROM audit ${at(1)}`])).fault)).toBe('missing 1');
    expect(kindOf((await tampered([gone, ...moved(21, -1)])).fault)).toBe('changed 20');
  });

  test('shows that two rows were swapped', async () => {
    const { fault } = await tampered([
      `UPDATE audit SET number = 1000000 ${at(20)}`,
      `UPDATE audit SET number = 20 ${at(21)}`,
      `UPDATE audit SET number = 21 ${at(1_000_000)}`,
    ]);
    expect(kindOf(fault)).toBe('changed 20');
  });

  test('shows that a row was put in, even one whose own hash is right', async () => {
    const copy = `INSERT INTO audit SELECT chain, 20, yard_id, at, account_id, member_id, change,
                  record, key, before, after, hash FROM audit ${at(5)}`;
    const inserted = [...moved(20, 1), copy];
    expect(kindOf((await tampered(inserted)).fault)).toBe('changed 20');
    const forged = `UPDATE audit SET hash = audit_hash(
      (SELECT hash FROM audit ${at(19)}), audit) ${at(20)}`;
    expect(kindOf((await tampered([...inserted, forged])).fault)).toBe('changed 21');
  });

  test('shows that its end was cut off, or all of it written anew, by a head noted before', async () => {
    const noted = await asOwner((owner) => headOf(owner, 'small'));
    const cut = `DELETE FROM audit WHERE chain = 'small' AND number > ${String(noted?.number)} - 3`;
    const anew = [`UPDATE audit SET member_id = 'bram' ${at(20)}`, rehashed(20)];
    const head = noted?.hash ?? '';
    // Of itself a chain does not tell.
    expect(await tampered([cut])).toMatchObject({ fault: null, found: null });
    expect(await tampered(anew)).toMatchObject({ fault: null });
    expect(await tampered([cut], head)).toMatchObject({ fault: null, found: null });
    expect(await tampered(anew, head)).toMatchObject({ fault: null, found: null });
    // While one that only grew still has it.
    await inSmall((tx) => addSkill(tx, 'grown'));
    const grown = await asOwner((owner) => verifyChain(owner, 'small', head));
    expect(grown).toMatchObject({ fault: null, found: noted?.number });
    expect(grown.rows).toBe((noted?.number ?? 0n) + 1n);
  });

  test('is read in pages, and goes on beyond the first', async () => {
    await inSmall(async (tx) => {
      await tx.reading.createMany({
        data: Array.from({ length: 1000 }, (_, i) => ({
          yardId: 'small',
          id: `r-${String(i)}`,
          spaceId: 'bay',
          of: 'air',
          at: new Date(i * 60_000),
          celsius: i / 10,
        })),
      });
    });
    const verdict = await asOwner((owner) => verifyChain(owner, 'small'));
    expect(verdict.fault).toBeNull();
    expect(verdict.rows).toBeGreaterThan(1000n);
    const late = Number(verdict.rows) - 20;
    const { fault } = await tampered([
      `UPDATE audit SET at = at + interval '1 ms' WHERE chain = 'small' AND number = ${String(late)}`,
    ]);
    expect(kindOf(fault)).toBe(`changed ${String(late)}`);
  });
});

describe('transactions at once', () => {
  const deadlocks = (): Promise<string> =>
    withClient(database.adminUrl, async (admin) => {
      const { rows } = await admin.query<{ deadlocks: string }>(
        'SELECT deadlocks FROM pg_stat_database WHERE datname = current_database()',
      );
      return rows[0].deadlocks;
    });

  test('in one yard leave one whole chain', async () => {
    const before = await deadlocks();
    const names = Array.from({ length: 24 }, (_, i) => `at-once-${String(i)}`);
    await Promise.all(
      names.map((name) =>
        inSmall(async (tx) => {
          await addSkill(tx, name);
          await tx.skill.update({
            where: { yardId_id: { yardId: 'small', id: name } },
            data: { name: `${name}, changed` },
          });
          await tx.event.create({
            data: { yardId: 'small', kind: 'k', subject: 'skill', subjectId: name },
          });
        }),
      ),
    );
    const { verdict, rows } = await asOwner(async (owner) => ({
      verdict: await verifyChain(owner, 'small'),
      rows: await owner.query<{ number: string; id: string }>(
        "SELECT number, key ->> 'id' AS id FROM audit WHERE record = 'skill' AND key ->> 'id' LIKE 'at-once-%' ORDER BY number",
      ),
    }));
    expect(verdict.fault).toBeNull();
    expect(rows.rows).toHaveLength(48);
    // A transaction's rows stand together: the chain is its own until its end.
    for (let i = 0; i < 48; i += 2) expect(rows.rows[i + 1].id).toBe(rows.rows[i].id);
    expect(await deadlocks()).toBe(before);
  });

  test('that write to a yard and to accounts, in either order, do not lock each other out', async () => {
    const before = await deadlocks();
    const account = (name: string): string =>
      `INSERT INTO account (email, name) VALUES ('${name}@yard.test', '${name}')`;
    const skill = (name: string): string =>
      `INSERT INTO skill (yard_id, id, name) VALUES ('small', '${name}', '${name}')`;
    await asOwner((holder) =>
      asOwner((one) =>
        asOwner(async (other) => {
          // Both commits come to wait for the accounts' chain; whoever took its yard's first would
          // now have what the other needs next.
          await holder.query(
            "BEGIN; SELECT pg_advisory_xact_lock(hashtextextended('curewright.audit:', 0))",
          );
          await one.query(`BEGIN; ${account('ada')}; ${skill('ada')}`);
          await other.query(`BEGIN; ${skill('bob')}; ${account('bob')}`);
          const ends = Promise.all([one.query('COMMIT'), other.query('COMMIT')]);
          await waiting(holder, 2);
          await holder.query('COMMIT');
          const [first, second] = await ends;
          expect([first.command, second.command]).toEqual(['COMMIT', 'COMMIT']);
        }),
      ),
    );
    expect(await deadlocks()).toBe(before);
    for (const chain of ['small', '']) {
      const { fault } = await asOwner((owner) => verifyChain(owner, chain));
      expect(fault).toBeNull();
    }
  });

  test('of which one looks at an older moment: it is begun anew, and nothing is lost', async () => {
    let attempts = 0;
    await inYard(
      database.service,
      service('small'),
      async (tx) => {
        attempts += 1;
        await tx.skill.count();
        if (attempts === 1) await inSmall((meanwhile) => addSkill(meanwhile, 'meanwhile'));
        await addSkill(tx, 'older-moment');
      },
      { isolationLevel: 'RepeatableRead' },
    );
    expect(attempts).toBe(2);
    const verdict = await asOwner((owner) => verifyChain(owner, 'small'));
    expect(verdict.fault).toBeNull();
  });
});

/** Until so many connections wait for an advisory lock. */
async function waiting(client: Client, count: number): Promise<void> {
  for (;;) {
    const { rows } = await client.query<{ count: number }>(
      `SELECT count(*)::int AS count FROM pg_locks
       WHERE locktype = 'advisory' AND NOT granted
         AND database = (SELECT oid FROM pg_database WHERE datname = current_database())`,
    );
    if (rows[0].count >= count) return;
  }
}

describe('the service role', () => {
  test.each([
    `INSERT INTO audit SELECT * FROM audit LIMIT 1`,
    `INSERT INTO audit (chain, number, yard_id, at, change, record, key, after, hash)
     VALUES ('small', 900000, 'small', now(), 'insert', 'skill', '{}', '{}', sha256(''))`,
    `UPDATE audit SET member_id = 'bram'`,
    `DELETE FROM audit`,
    `TRUNCATE audit`,
    `ALTER TABLE audit DISABLE TRIGGER ALL`,
    `ALTER TABLE skill DISABLE TRIGGER audit`,
    `DROP TRIGGER audit ON skill`,
    `CREATE TRIGGER forged AFTER INSERT ON skill FOR EACH ROW
     EXECUTE FUNCTION audit_row('yard_id', '{id}', '{}', '{}')`,
    `CREATE TEMPORARY TABLE skill (yard_id text, id text)`,
    `SET session_replication_role = 'replica'`,
    `CREATE OR REPLACE FUNCTION audit_hash(previous bytea, entry audit) RETURNS bytea
     LANGUAGE sql AS 'SELECT NULL::bytea'`,
  ])('may not: %s', async (sql) => {
    await withClient(database.serviceUrl, async (client) => {
      await client.query("SELECT enter_yard_as_service('small')");
      const refused = await client.query(sql).catch((error: unknown) => error);
      // Insufficient privilege, or not the owner: PostgreSQL's class 42501 for both.
      expect(refused).toMatchObject({ code: '42501' });
    });
  });

  test('sees the rows of the yard that it entered, and none of another or of the accounts', async () => {
    const seen = (): Promise<string[]> =>
      inSmall(async (tx) => {
        const rows = await tx.audit.findMany({ distinct: ['chain'], select: { chain: true } });
        return rows.map(({ chain }) => chain);
      });
    expect(await seen()).toEqual(['small']);
    await inYard(database.service, service('other'), (tx) =>
      saveYard(tx, readYard(smallYard('other', 'Other'), 'other')),
    );
    expect(await seen()).toEqual(['small']);
    const { fault } = await asOwner((owner) => verifyChain(owner, 'other'));
    expect(fault).toBeNull();
  });

  test('and its owner changes nothing by an oversight', async () => {
    await asOwner(async (owner) => {
      for (const sql of [`UPDATE audit SET record = 'x'`, `DELETE FROM audit`, `TRUNCATE audit`]) {
        const refused = await owner.query(sql).catch((error: unknown) => error);
        expect(refused).toMatchObject({ constraint: 'audit_immutable' });
      }
    });
  });
});

describe('the command', () => {
  const program = fileURLToPath(new URL('../../apps/cli/audit.ts', import.meta.url));
  const run = async (...words: string[]): Promise<{ code: number; out: string; err: string }> => {
    const options = { env: { ...process.env, MIGRATE_DATABASE_URL: database.ownerUrl } };
    try {
      const done = await promisify(execFile)(process.execPath, [program, ...words], options);
      return { code: 0, out: done.stdout, err: done.stderr };
    } catch (error) {
      const { code, stdout, stderr } = error as { code: number; stdout: string; stderr: string };
      return { code, out: stdout, err: stderr };
    }
  };

  test('says in plain words what is whole, and what no longer is', async () => {
    const head = await asOwner((owner) => headOf(owner, 'small'));
    const [number, hash] = [String(head?.number), head?.hash ?? ''];
    const all = await run('verify');
    expect(all).toMatchObject({ code: 0, err: '' });
    expect(all.out).toContain(`The yard "small": ${number} changes, each fits the one before it.`);
    expect(all.out).toMatch(/^The accounts: \d+ changes, each fits/m);
    expect(all.out).toContain('not whether its end was cut off');

    const shown = await run('head', '--yard', 'small');
    expect(shown).toEqual({ code: 0, out: `The yard "small": ${number} ${hash}\n`, err: '' });
    await asOwner((owner) =>
      owner.query(`ALTER TABLE audit DISABLE TRIGGER USER;
        DELETE FROM audit WHERE chain = 'small' AND number = ${number};
        UPDATE audit SET member_id = 'bram' WHERE chain = 'other' AND number = 7;
        ALTER TABLE audit ENABLE TRIGGER USER`),
    );
    const cut = await run('verify', '--yard', 'small', '--head', hash);
    expect(cut.code).toBe(1);
    expect(cut.out).toContain('No change has the hash that was noted: the end was cut off');
    const altered = await run('verify');
    expect(altered.code).toBe(1);
    expect(altered.out).toContain('The yard "other": change 7 does not fit');
    expect(altered.out).toContain('by "bram" at');
    expect(altered.out).toContain('Before it, 6 changes fit.');
  });
});
