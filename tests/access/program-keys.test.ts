import { createHash, randomBytes } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { type Answer, faultsOf, testPassword } from '../support/api.ts';
import { mailbox } from '../support/mails.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';
import { smallYard } from '../support/small-yard.ts';
import { whileHeld } from '../support/while-held.ts';

/** Keys of programs: bearer tokens (RFC 6750), scoped, expiring, stored as hashes. */
const mails = mailbox();
const { api, database, tokens } = smallYardApi({ mail: { folder: mails.folder } });
const password = testPassword;

const rest = (method: string, path: string, token: string, body?: unknown): Promise<Answer> =>
  api.rest(method, path, { token, ...(body === undefined ? {} : { body }) });

const keySchema = z.looseObject({
  id: z.string(),
  personId: z.string(),
  name: z.string(),
  token: z.string(),
  scopes: z.array(z.string()),
});
async function make(
  who: 'foreman' | 'builder' | 'owner',
  scopes: readonly string[],
  more: object = {},
): Promise<z.output<typeof keySchema>> {
  const body = { name: `${who}'s`, scopes, days: 30, password, ...more };
  const answer = await rest('POST', '/yards/small/program-keys', tokens[who], body);
  expect(answer.status).toBe(201);
  return keySchema.parse(answer.body);
}
const listSchema = z.object({
  items: z.array(
    z.looseObject({
      id: z.string(),
      personId: z.string(),
      state: z.string(),
      lastUsedAt: z.string().nullable(),
    }),
  ),
});
const listOf = async (token: string) =>
  listSchema.parse((await rest('GET', '/yards/small/program-keys?first=200', token)).body).items;
const codeOf = ({ status, body }: Answer): unknown[] => [status, body.code];

const reading = (celsius: number) => ({
  readings: [
    {
      space: 'bay',
      at: new Date(Math.floor(Date.now() / 60_000) * 60_000 - celsius * 60_000).toISOString(),
      celsius,
    },
  ],
});

describe('a key', () => {
  test('is shown once, and stored as a hash', async () => {
    const { id, token, ...told } = await make('builder', ['read']);
    expect(told).toMatchObject({
      personId: 'bram',
      person: 'Bram',
      scopes: ['read'],
      state: 'open',
    });
    expect(token).toMatch(/^cwk_[\w-]{43}$/);
    const stored = await database.owner.programKey.findFirstOrThrow({ where: { id } });
    const sha256 = createHash('sha256').update(token).digest();
    expect(Buffer.from(stored.tokenHash).equals(sha256)).toBe(true);
    expect(JSON.stringify(await listOf(tokens.builder))).not.toContain(token);
  });

  test('is not kept for a repetition of the command', async () => {
    const sending = {
      token: tokens.builder,
      headers: { 'idempotency-key': 'once' },
      body: { name: 'once', scopes: ['read'], password },
    };
    const first = await api.rest('POST', '/yards/small/program-keys', sending);
    const again = await api.rest('POST', '/yards/small/program-keys', sending);
    expect(again).toMatchObject({ status: 201, body: { ...first.body, token: null } });
    const kept = await database.owner.idempotencyKey.findMany({ where: { key: 'once' } });
    expect(kept).toHaveLength(1);
    expect(JSON.stringify(kept[0].body)).not.toContain(z.string().parse(first.body.token));
  });

  test('takes the password of its person, who is told of it by mail', async () => {
    const before = (await mails.to(people.owner)).length;
    const count = () => database.owner.programKey.count({ where: { memberId: 'odile' } });
    const [made, body] = [await count(), { name: 'left open', scopes: ['read'] }];
    for (const more of [{}, { password: 'what somebody guesses' }]) {
      const sent = { ...body, ...more };
      const answer = await rest('POST', '/yards/small/program-keys', tokens.owner, sent);
      expect(codeOf(answer)).toEqual([422, 'input.field']);
      expect(faultsOf(answer.body)).toEqual([['password', 'input.field']]);
    }
    expect(await count()).toBe(made);
    await make('owner', ['read'], { name: 'tide screen' });
    const mail = await mails.wait(people.owner, before + 1);
    expect(mail).toMatch(/^Subject: A Curewright program key was made/m);
    expect(mail).toContain('"tide screen"');
    expect(mail).not.toContain('cwk_');
    expect(await mails.to(people.owner)).toHaveLength(before + 1);
  });

  test('does what its person may, and says when it was last used', async () => {
    const { id, token } = await make('builder', ['read']);
    expect((await rest('GET', '/yards/small/skills', token)).status).toBe(200);
    expect(codeOf(await rest('GET', '/yards/small/export', token))).toEqual([403, 'access.role']);
    const { body } = await api.graphql(
      '{ skills(yardId: "small") { items { id } } }',
      {},
      { token },
    );
    expect(body.errors).toBeUndefined();
    const [used] = (await listOf(tokens.builder)).filter((key) => key.id === id);
    const age = Date.now() - Date.parse(used.lastUsedAt ?? '');
    expect(age).toBeGreaterThanOrEqual(0);
    expect(age).toBeLessThan(60_000);
  });

  test('reaches as far as its scopes, each with those before it', async () => {
    const [read, work, manage] = await Promise.all(
      ['read', 'work', 'manage'].map((scope) => make('foreman', [scope])),
    );
    const outcomes = async (token: string, n: number): Promise<number[]> => [
      (await rest('GET', '/yards/small/skills', token)).status,
      (await rest('POST', '/yards/small/readings', token, reading(n))).status,
      (await rest('POST', '/yards/small/skills', token, { id: `skill-${String(n)}`, name: 'S' }))
        .status,
    ];
    expect(await outcomes(read.token, 11)).toEqual([200, 403, 403]);
    expect(await outcomes(work.token, 12)).toEqual([200, 201, 403]);
    expect(await outcomes(manage.token, 13)).toEqual([200, 201, 201]);
    const refused = await rest('POST', '/yards/small/readings', read.token, reading(14));
    expect(codeOf(refused)).toEqual([403, 'access.scope']);
  });

  test('opens its yard only: another one is not there', async () => {
    const { token } = await make('foreman', ['manage']);
    const mine = { ...smallYard('mine', 'Mine'), people: [], boats: [] };
    expect((await rest('POST', '/yards', tokens.foreman, mine)).status).toBe(201);
    const [other, none] = await Promise.all(
      ['mine', 'nowhere'].map((id) => rest('GET', `/yards/${id}`, token)),
    );
    expect(codeOf(other)).toEqual([404, 'record.missing']);
    expect({ ...other.body, instance: '' }).toEqual({ ...none.body, instance: '' });
    // The same person signed in is its foreman.
    expect((await rest('GET', '/yards/mine', tokens.foreman)).status).toBe(200);
  });

  test('of an owner sees the own boats, like its person', async () => {
    const { token } = await make('owner', ['read']);
    const boats = await rest('GET', '/yards/small/my-boats', token);
    expect(boats).toMatchObject({ status: 200, body: { items: [{ id: 'petrel' }] } });
    expect(codeOf(await rest('GET', '/yards/small/people', token))).toEqual([403, 'access.role']);
  });

  test('never manages keys, people, invitations or how the yard is entered', async () => {
    const { id, token } = await make('foreman', ['manage']);
    const person = { id: 'mole', name: 'Mole', roles: ['foreman'] };
    const calls: [method: string, path: string, body?: object][] = [
      ['POST', '/yards/small/program-keys', { name: 'child', scopes: ['manage'] }],
      ['GET', '/yards/small/program-keys'],
      ['DELETE', `/yards/small/program-keys/${id}`],
      ['POST', '/yards/small/people', person],
      ['PATCH', '/yards/small/people/bram', { roles: ['foreman'] }],
      ['DELETE', '/yards/small/people/bram'],
      ['DELETE', '/yards/small/people/bram/account'],
      ['POST', '/yards/small/people/bram/invitations', {}],
      ['GET', '/yards/small/invitations'],
      ['DELETE', '/yards/small/invitations/none'],
      ['PATCH', '/yards/small/access-settings', { ownersSeeCrew: true }],
    ];
    for (const [method, path, body] of calls) {
      const outcome = codeOf(await rest(method, path, token, body));
      expect([method, path, ...outcome]).toEqual([method, path, 403, 'access.scope']);
    }
    // Nor does it stand for its person where no yard is named.
    for (const path of ['/me', '/yards']) {
      expect([401, 403]).toContain((await rest('GET', path, token)).status);
    }
    const accepted = await rest('POST', '/invitations/accept', token, { token: 'any' });
    expect(codeOf(accepted)).toEqual([403, 'access.scope']);
    expect((await rest('GET', '/yards/small/people/mole', tokens.foreman)).status).toBe(404);
  });

  test('is refused with scopes that its person’s roles have no use for', async () => {
    const wide = (who: 'builder' | 'owner', scopes: readonly string[]): Promise<Answer> =>
      rest('POST', '/yards/small/program-keys', tokens[who], { name: 'wide', scopes, password });
    const owners = await wide('owner', ['read', 'work', 'manage']);
    expect(owners.status).toBe(422);
    // With `manage` an owner orders changes to the own boat; nothing of theirs is a builder's day.
    expect(faultsOf(owners.body)).toEqual([['scopes[1]', 'input.field']]);
    expect(faultsOf((await wide('builder', ['work', 'manage'])).body)).toEqual([
      ['scopes[1]', 'input.field'],
    ]);
    const shapes = [
      [{ name: 'k', scopes: [] }, 'scopes'],
      [{ name: 'k', scopes: ['all'] }, 'scopes[0]'],
      [{ name: ' ', scopes: ['read'] }, 'name'],
      [{ name: 'k', scopes: ['read'], days: 367 }, 'days'],
      [{ name: 'k', scopes: ['read'], days: 0 }, 'days'],
    ] as const;
    for (const [body, path] of shapes) {
      const sent = { ...body, password };
      const answer = await rest('POST', '/yards/small/program-keys', tokens.builder, sent);
      expect(faultsOf(answer.body)).toEqual([[path, 'input.field']]);
    }
    expect(await make('builder', ['work'], { days: 366 })).toMatchObject({ scopes: ['work'] });
  });
});

describe('the end of a key', () => {
  const works = async ({ token }: { token: string }): Promise<number> =>
    (await rest('GET', '/yards/small', token)).status;

  test('comes with its time', async () => {
    const key = await make('builder', ['read'], { days: 1 });
    expect(await works(key)).toBe(200);
    await database.owner.programKey.updateMany({
      where: { id: key.id },
      data: { createdAt: new Date(Date.now() - 60_000), expiresAt: new Date(Date.now() - 1) },
    });
    expect(codeOf(await rest('GET', '/yards/small', key.token))).toEqual([401, 'access.sign-in']);
    const [listed] = (await listOf(tokens.builder)).filter(({ id }) => id === key.id);
    expect(listed.state).toBe('expired');
  });

  test('comes when it is revoked: by its person, or by the foreman', async () => {
    const [own, other] = [await make('builder', ['read']), await make('foreman', ['read'])];
    const revoke = (token: string, id: string) =>
      rest('DELETE', `/yards/small/program-keys/${id}`, token);
    expect(codeOf(await revoke(tokens.builder, other.id))).toEqual([404, 'record.missing']);
    expect(codeOf(await revoke(tokens.builder, 'none'))).toEqual([404, 'record.missing']);
    expect(await works(other)).toBe(200);
    expect((await revoke(tokens.builder, own.id)).status).toBe(204);
    expect(await works(own)).toBe(401);
    expect((await revoke(tokens.builder, own.id)).status).toBe(204);

    const second = await make('builder', ['read']);
    const all = await listOf(tokens.foreman);
    expect(new Set(all.map(({ personId }) => personId))).toEqual(
      new Set(['ines', 'bram', 'odile']),
    );
    expect(new Set((await listOf(tokens.builder)).map(({ personId }) => personId))).toEqual(
      new Set(['bram']),
    );
    expect((await revoke(tokens.foreman, second.id)).status).toBe(204);
    expect(await works(second)).toBe(401);
    const [listed] = (await listOf(tokens.builder)).filter(({ id }) => id === second.id);
    expect(listed.state).toBe('revoked');
  });

  test('comes when the person’s roles become fewer than it reaches', async () => {
    const roles = async (next: readonly string[]): Promise<void> => {
      const { headers } = await rest('GET', '/yards/small/people/bram', tokens.foreman);
      const answer = await api.rest('PATCH', '/yards/small/people/bram', {
        token: tokens.foreman,
        headers: { 'if-match': headers.get('etag') ?? '' },
        body: { roles: next },
      });
      expect(answer.status).toBe(200);
    };
    await roles(['builder', 'foreman']);
    const [wide, narrow] = [await make('builder', ['manage']), await make('builder', ['work'])];
    await roles(['builder']);
    expect([await works(wide), await works(narrow)]).toEqual([401, 200]);
    await roles(['builder', 'foreman']);
    expect([await works(wide), await works(narrow)]).toEqual([401, 200]);
    await roles(['builder']);
  });

  test('has to come before there are more than fifty', async () => {
    const at = (days: number): Date => new Date(Date.now() + days * 86_400_000);
    await database.owner.programKey.createMany({
      data: Array.from({ length: 50 }, () => ({
        yardId: 'small',
        memberId: 'odile',
        name: 'spare',
        scopes: ['read'],
        tokenHash: new Uint8Array(randomBytes(32)),
        expiresAt: at(30),
      })),
    });
    const one = { name: 'one more', scopes: ['read'], password };
    const refused = await rest('POST', '/yards/small/program-keys', tokens.owner, one);
    expect(codeOf(refused)).toEqual([422, 'input.limit']);
    await database.owner.programKey.updateMany({
      where: { name: 'spare' },
      data: { revokedAt: at(0) },
    });
    expect((await rest('POST', '/yards/small/program-keys', tokens.owner, one)).status).toBe(201);
  });

  test('comes with the removal of its person, whom it does not hold back', async () => {
    const person = { id: 'zita', name: 'Zita', roles: ['builder'] };
    expect((await rest('POST', '/yards/small/people', tokens.foreman, person)).status).toBe(201);
    await api.addAccount('zita@yard.test');
    await database.owner.member.update({
      where: { yardId_id: { yardId: 'small', id: 'zita' } },
      data: { email: 'zita@yard.test' },
    });
    await api.join('small');
    const session = await api.signIn('zita@yard.test');
    const body = { name: 'hers', scopes: ['read'], password };
    const made = await rest('POST', '/yards/small/program-keys', session, body);
    const key = keySchema.parse(made.body);
    expect(await works(key)).toBe(200);
    const { headers } = await rest('GET', '/yards/small/people/zita', tokens.foreman);
    const removed = await api.rest('DELETE', '/yards/small/people/zita', {
      token: tokens.foreman,
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    expect(removed.status).toBe(204);
    expect(await works(key)).toBe(401);
    expect(await database.owner.programKey.count({ where: { memberId: 'zita' } })).toBe(0);
  });
});

describe('a key in the making is not made', () => {
  const ownerUrl = () => database.ownerUrl;
  const sent = { name: 'in between', scopes: ['read'], password };
  const making = (token: string) => rest('POST', '/yards/small/program-keys', token, sent);
  const made = () => database.owner.programKey.count({ where: { name: sent.name } });
  const ofMember = (id: string, set: string) =>
    `UPDATE member SET ${set} WHERE yard_id = 'small' AND id = '${id}'`;

  test.each(['builder', 'owner'] as const)('as the access of its %s ends', async (who) => {
    const id = who === 'builder' ? 'bram' : 'odile';
    const key = { yardId_id: { yardId: 'small', id } };
    const { accountId } = await database.owner.member.findUniqueOrThrow({ where: key });
    const end = ofMember(id, 'account_id = NULL');
    const answer = await whileHeld(ownerUrl(), [end], () => making(tokens[who]));
    expect(codeOf(answer)).toEqual([404, 'record.missing']);
    expect(await made()).toBe(0);
    await database.owner.member.update({ where: key, data: { accountId } });
  });

  test('as its person’s roles become fewer than it would reach', async () => {
    await database.owner.$executeRawUnsafe(ofMember('bram', "roles = '{foreman}'"));
    const fewer = ofMember('bram', "roles = '{builder}'");
    const wide = { ...sent, scopes: ['manage'] };
    const answer = await whileHeld(ownerUrl(), [fewer], () =>
      rest('POST', '/yards/small/program-keys', tokens.builder, wide),
    );
    expect(faultsOf(answer.body)).toEqual([['scopes[0]', 'input.field']]);
    expect(await made()).toBe(0);
  });

  test('as the yard begins to ask for a second factor', async () => {
    const asks = (on: boolean) =>
      `UPDATE yard SET second_factor_required = ${String(on)} WHERE id = 'small'`;
    const answer = await whileHeld(ownerUrl(), [asks(true)], () => making(tokens.builder));
    expect(codeOf(answer)).toEqual([403, 'access.second-factor']);
    expect(await made()).toBe(0);
    await database.owner.$executeRawUnsafe(asks(false));
  });

  test('as the session is closed that makes it', async () => {
    const session = await api.signIn(people.builder);
    const hash = createHash('sha256').update(session).digest('hex');
    const close = `DELETE FROM session WHERE token_hash = '\\x${hash}'`;
    const answer = await whileHeld(ownerUrl(), [close], () => making(session));
    expect(codeOf(answer)).toEqual([401, 'access.sign-in']);
    expect(await made()).toBe(0);
  });
});

test('over GraphQL a key is made, listed and revoked', async () => {
  const ask = async (query: string, variables: object): Promise<unknown> => {
    const { body } = await api.graphql(query, variables, { token: tokens.builder });
    expect(body.errors).toBeUndefined();
    const { data } = z.object({ data: z.record(z.string(), z.unknown()) }).parse(body);
    return Object.values(data)[0];
  };
  const make =
    'mutation ($input: ProgramKeyInput!) { createProgramKey(yardId: "small", input: $input) { id token scopes } }';
  const input = { name: 'by GraphQL', scopes: ['READ', 'WORK'], days: 10, password };
  const { id, token } = z
    .object({
      id: z.string(),
      token: z.string(),
      scopes: z.tuple([z.literal('READ'), z.literal('WORK')]),
    })
    .parse(await ask(make, { input }));
  const { body } = await api.graphql('{ yard(yardId: "small") { name } }', {}, { token });
  expect(body).toMatchObject({ data: { yard: { name: 'Small yard' } } });
  const list = '{ programKeys(yardId: "small", first: 1) { items { id name state } nextCursor } }';
  expect(await ask(list, {})).toMatchObject({ items: [{ id, name: 'by GraphQL', state: 'OPEN' }] });
  const revoke = 'mutation ($id: ID!) { revokeProgramKey(yardId: "small", id: $id) }';
  expect(await ask(revoke, { id })).toBe(true);
  expect((await rest('GET', '/yards/small', token)).status).toBe(401);
});
