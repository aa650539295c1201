import { createHash, randomUUID } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { asAccount, inYard, service } from '#persistence/client.ts';
import { withClient } from '#persistence/roles.ts';
import { faultsOf, testPassword } from '../support/api.ts';
import { inviting, newPassword } from '../support/inviting.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';

const yard = smallYardApi();
const { api, database, tokens } = yard;
const { invited, open } = inviting(yard);

const entrySchema = z.strictObject({
  id: z.string(),
  at: z.string(),
  byMemberId: z.string().nullable(),
  byName: z.string().nullable(),
  change: z.enum(['insert', 'update', 'delete']),
  record: z.string(),
  key: z.string(),
  fields: z.array(
    z.strictObject({
      name: z.string(),
      before: z.string().nullable(),
      after: z.string().nullable(),
    }),
  ),
  hash: z.string().regex(/^[0-9a-f]{64}$/),
});
type Entry = z.output<typeof entrySchema>;
const pageSchema = z.strictObject({
  items: z.array(entrySchema),
  nextCursor: z.string().nullable(),
});

async function read(query: string): Promise<z.output<typeof pageSchema>> {
  const { status, body } = await api.rest('GET', `/yards/small/audit?${query}`, {
    token: tokens.foreman,
  });
  expect(status).toBe(200);
  return pageSchema.parse(body);
}

/** Field by field, values read. */
const fieldsOf = ({ fields }: Entry): Record<string, [before: unknown, after: unknown]> =>
  Object.fromEntries(
    fields.map(({ name, before, after }) => [name, [valueOf(before), valueOf(after)]]),
  );
const valueOf = (json: string | null): unknown => (json === null ? undefined : JSON.parse(json));

/** Everything that was written down in the database, as text. */
const everything = (): Promise<string> =>
  withClient(database.ownerUrl, async (owner) => {
    const { rows } = await owner.query<{ all: string }>(
      "SELECT string_agg(audit::text, E'\\n') AS all FROM audit",
    );
    return rows[0].all;
  });

const lastNumber = async (): Promise<number> => Number((await read('first=1')).items[0].id);

describe('what was changed', () => {
  test('an added, changed and removed record: who, when, what before and after', async () => {
    const since = new Date();
    const { foreman: token } = tokens;
    const path = '/yards/small/skills';
    const made = await api.rest('POST', path, { token, body: { id: 'rigging', name: 'Rigging' } });
    expect(made.status).toBe(201);
    const headers = { 'if-match': '"1"' };
    const changed = await api.rest('PATCH', `${path}/rigging`, {
      token,
      headers,
      body: { name: 'Rigging and splicing' },
    });
    expect(changed.status).toBe(200);
    const removed = await api.rest('DELETE', `${path}/rigging`, {
      token,
      headers: { 'if-match': '"2"' },
    });
    expect(removed.status).toBe(204);

    const { items } = await read('record=skill&key=rigging');
    expect(items.map(({ change }) => change)).toEqual(['delete', 'update', 'insert']);
    for (const { at, byMemberId, byName, record, key } of items) {
      expect({ byMemberId, byName, record, key }).toEqual({
        byMemberId: 'ines',
        byName: 'Ines',
        record: 'skill',
        key: '{"id":"rigging"}',
      });
      // The database's clock tells milliseconds, cut off; this is the same machine's.
      expect(Date.parse(at)).toBeGreaterThanOrEqual(since.getTime());
      expect(Date.parse(at)).toBeLessThanOrEqual(Date.now());
    }
    const [gone, updated, inserted] = items.map(fieldsOf);
    expect(inserted).toEqual({
      yardId: [undefined, 'small'],
      id: [undefined, 'rigging'],
      name: [undefined, 'Rigging'],
      position: [undefined, expect.any(Number)],
      revision: [undefined, 1],
    });
    expect(updated).toEqual({ name: ['Rigging', 'Rigging and splicing'], revision: [1, 2] });
    expect(gone).toMatchObject({
      name: ['Rigging and splicing', undefined],
      revision: [2, undefined],
    });
  });

  test('by a builder, by the service itself, by somebody who came by an invitation', async () => {
    const at = new Date(Date.now() - 60_000).toISOString();
    const reading = { space: 'bay', of: 'air', at: `${at.slice(0, 16)}:00Z`, celsius: 19 };
    const added = await api.rest('POST', '/yards/small/readings', {
      token: tokens.builder,
      body: { readings: [reading] },
    });
    expect(added.status).toBe(201);
    await inYard(database.service, service('small'), (tx) =>
      tx.fabric.create({
        data: {
          yardId: 'small',
          id: 'mat',
          name: 'Mat',
          gramsPerM2: 300,
          resinRatio: 2,
          binder: 'powder',
          source: 'invented',
        },
      }),
    );
    expect((await read('record=reading')).items).toMatchObject([
      { change: 'insert', byMemberId: 'bram', byName: 'Bram' },
    ]);
    expect((await read('record=fabric')).items).toMatchObject([
      { change: 'insert', byMemberId: null, byName: null },
    ]);

    const token = await invited('kaja');
    const email = 'kaja@yard.test';
    const joined = await open('accept', { token, email, password: newPassword });
    expect(joined.status).toBe(200);
    const [{ byMemberId, fields }] = (await read('record=member&key=kaja&change=update')).items;
    expect(byMemberId).toBe('kaja');
    expect(fields.map(({ name }) => name)).toContain('accountId');
  });

  test('the founding of the yard: a row for each row that it has', async () => {
    const { items } = await read('record=yard');
    expect(items.at(-1)).toMatchObject({ id: '1', change: 'insert', byMemberId: 'ines' });
    const counts = await withClient(database.ownerUrl, async (owner) => {
      const { rows } = await owner.query<{ name: string }>(
        `SELECT DISTINCT tgrelid::regclass::text AS name FROM pg_trigger
         WHERE tgfoid = 'audit_row'::regproc AND encode(tgargs, 'escape') LIKE 'yard\\_id%'`,
      );
      const found: Record<string, [there: number, net: number]> = {};
      for (const { name } of rows) {
        const { rows: counted } = await owner.query<{ there: number; net: number }>(
          `SELECT (SELECT count(*)::int FROM ${name} WHERE yard_id = 'small') AS there,
                  (SELECT coalesce(sum(CASE change WHEN 'insert' THEN 1 WHEN 'delete' THEN -1 ELSE 0 END), 0)::int
                   FROM audit WHERE chain = 'small' AND record = '${name}') AS net`,
        );
        found[name] = [counted[0].there, counted[0].net];
      }
      return found;
    });
    expect(counts).toMatchObject({ task: [2, 2], task_link: [1, 1], cure_table: [6, 6] });
    for (const [name, [there, net]] of Object.entries(counts)) expect(net, name).toBe(there);
  });

  test('a part that grows changes its tasks and leaves alone what stays as it was', async () => {
    const before = await lastNumber();
    const part = await api.rest('GET', '/yards/small/parts/hatch', { token: tokens.foreman });
    const grown = await api.rest('PATCH', '/yards/small/parts/hatch', {
      token: tokens.foreman,
      headers: { 'if-match': part.headers.get('etag') ?? '' },
      body: { areaM2: 3 },
    });
    expect(grown.status).toBe(200);
    const { items } = await read('first=50');
    const fresh = items.filter(({ id }) => Number(id) > before);
    expect(fresh.map(({ record, change, key }) => `${change} ${record} ${key}`).sort()).toEqual([
      'update part {"id":"hatch"}',
      'update task {"id":"hatch-panel.fair"}',
      'update task {"id":"hatch-panel.lay-up"}',
    ]);
  });

  test('a change that is refused, or undone, leaves no row', async () => {
    const before = await lastNumber();
    const twice = await api.rest('POST', '/yards/small/skills', {
      token: tokens.foreman,
      body: { id: 'laminating', name: 'Again' },
    });
    expect(twice.status).toBe(409);
    const undone = inYard(database.service, service('small'), async (tx) => {
      await tx.skill.create({ data: { yardId: 'small', id: 'undone', name: 'Undone' } });
      throw new Error('never mind');
    });
    await expect(undone).rejects.toThrow('never mind');
    expect(await lastNumber()).toBe(before);
    expect(await everything()).not.toContain('undone');
  });
});

describe('secrets', () => {
  test('are hidden, and that one was changed is shown', async () => {
    const token = await api.signIn(people.builder);
    const id = randomUUID();
    const email = 'secret@yard.test';
    const hashes = ['$argon2id$one', '$argon2id$two'];
    await asAccount(database.service, id, (tx) =>
      tx.account.create({ data: { id, email, name: 'S', passwordHash: hashes[0] } }),
    );
    await asAccount(database.service, id, (tx) =>
      tx.account.update({ where: { id }, data: { passwordHash: hashes[1] } }),
    );
    const all = await everything();
    for (const secret of [token, sha256(token), ...hashes, '$argon2id$', testPassword]) {
      expect(all).not.toContain(secret);
    }
    const { rows } = await withClient(database.ownerUrl, (owner) =>
      owner.query<{ account_id: string; before: object | null; after: object }>(
        `SELECT account_id, before, after FROM audit
         WHERE chain = '' AND record = 'account' AND key ->> 'id' = $1 ORDER BY number`,
        [id],
      ),
    );
    expect(rows).toMatchObject([
      { account_id: id, before: null, after: { email, password_hash: 'hidden' } },
      {
        account_id: id,
        before: { password_hash: 'hidden' },
        after: { password_hash: 'hidden, changed' },
      },
    ]);
  });

  test('a session that was used is no change; one that was opened is', async () => {
    const token = await api.signIn(people.owner);
    const count = (): Promise<number> =>
      withClient(database.ownerUrl, async (owner) => {
        const { rows } = await owner.query<{ count: number }>(
          "SELECT count(*)::int AS count FROM audit WHERE chain = '' AND record = 'session'",
        );
        return rows[0].count;
      });
    const before = await count();
    expect(before).toBeGreaterThan(3);
    await database.owner.session.updateMany({
      data: { lastSeenAt: new Date(Date.now() - 300_000) },
    });
    expect((await api.rest('GET', '/me', { token })).status).toBe(200);
    expect(await count()).toBe(before);
  });
});

describe('reading', () => {
  test('pages of few give what one of many gives, newest first, by REST and by GraphQL', async () => {
    const whole = await read('first=200&record=cure-table');
    expect(whole.items.length).toBeGreaterThan(5);
    expect(whole.nextCursor).toBeNull();
    const ids = whole.items.map(({ id }) => Number(id));
    expect(ids).toEqual([...ids].sort((a, b) => b - a));

    const paged: Entry[] = [];
    let after = '';
    do {
      const page = await read(`first=2&record=cure-table${after}`);
      expect(page.items.length).toBeLessThanOrEqual(2);
      paged.push(...page.items);
      after = page.nextCursor === null ? '' : `&after=${page.nextCursor}`;
    } while (after !== '');
    expect(paged).toEqual(whole.items);

    const { body } = await api.graphql(
      `query ($input: AuditFilterInput!) {
        audit(yardId: "small", input: $input, first: 200) {
          items { id at byMemberId byName key hash fields { name before after } }
          nextCursor
        }
      }`,
      { input: { record: 'CURE_TABLE' } },
      { token: tokens.foreman },
    );
    const expected = whole.items.map(({ change: _c, record: _r, ...rest }) => rest);
    expect(body).toEqual({ data: { audit: { items: expected, nextCursor: null } } });
  });

  test('each filter narrows what is read, and several do together', async () => {
    const { items: all } = await read('first=200');
    const keys = ['record=member', 'key=bram', 'member=bram', 'change=update'];
    const [record, key, member, change] = await Promise.all(
      keys.map(async (query) => (await read(`first=200&${query}`)).items),
    );
    const named = (ids: readonly Entry[]): string[] => ids.map(({ id }) => id);
    const filtered = (keep: (entry: Entry) => boolean): string[] => named(all.filter(keep));
    expect(named(record)).toEqual(filtered((entry) => entry.record === 'member'));
    expect(named(key)).toEqual(filtered((entry) => entry.key.includes('"bram"')));
    expect(named(member)).toEqual(filtered((entry) => entry.byMemberId === 'bram'));
    expect(named(change)).toEqual(filtered((entry) => entry.change === 'update'));
    expect([record, key, member, change].every(({ length }) => length > 0)).toBe(true);

    const middle = all[Math.floor(all.length / 2)].at;
    const [from, to] = await Promise.all(
      [`from=${middle}`, `to=${middle}`].map(async (query) =>
        named((await read(`first=200&${query}`)).items),
      ),
    );
    expect(from).toEqual(filtered(({ at }) => at >= middle));
    expect(to).toEqual(filtered(({ at }) => at < middle));
    const both = await read(
      `first=200&record=member&key=bram&change=insert&from=${all.at(-1)?.at ?? ''}`,
    );
    expect(both.items).toHaveLength(1);
  });

  test('a filter that cannot be is refused with the field, the value and the cure', async () => {
    const ask = (query: string) =>
      api.rest('GET', `/yards/small/audit?${query}`, { token: tokens.foreman });
    for (const [query, path] of [
      ['record=boot', 'record'],
      ['change=moved', 'change'],
      ['member=Not%20an%20id', 'member'],
      ['key=%00', 'key'],
      ['from=yesterday', 'from'],
      ['from=2026-01-02T00:00:00Z&to=2026-01-01T00:00:00Z', 'to'],
      ['after=elsewhere', 'after'],
      ['first=0', 'first'],
    ] as const) {
      const { status, body } = await ask(query);
      expect(status, query).toBe(422);
      expect(faultsOf(body), query).toEqual([[path, 'input.field']]);
    }
    const far = await ask('from=0000-01-01T00:00:00Z&to=9999-12-31T23:59:59-23:00');
    expect(far.status).toBe(200);
  });

  test('is for the foreman; others are refused, and other yards do not exist', async () => {
    const ask = async (token: string | undefined, yard = 'small') => {
      const sending = token === undefined ? {} : { token };
      return (await api.rest('GET', `/yards/${yard}/audit`, sending)).status;
    };
    expect(await ask(tokens.foreman)).toBe(200);
    expect(await ask(tokens.builder)).toBe(403);
    expect(await ask(tokens.owner)).toBe(403);
    expect(await ask(tokens.stranger)).toBe(404);
    expect(await ask(tokens.foreman, 'elsewhere')).toBe(404);
    expect(await ask(undefined)).toBe(401);
  });
});

const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');
