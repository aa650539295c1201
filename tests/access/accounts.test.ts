import { createHash } from 'node:crypto';
import { hash } from '@node-rs/argon2';
import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { startApi } from '../../apps/api/src/main.ts';
import { type Answer, faultsOf, testApi, testPassword } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { mailbox } from '../support/mails.ts';

const database = testDatabase();
const mails = mailbox();
const options = { mail: { folder: mails.folder }, sessionIdleMinutes: 60 };
const api = testApi(database, options);

const [ines, bram] = ['ines@yard.test', 'bram@yard.test'];

beforeAll(async () => {
  await api.addAccount(ines);
  await api.addAccount(bram);
});

const accountOf = (email: string) => database.owner.account.findUniqueOrThrow({ where: { email } });

/** A fresh account, for tests that change one. */
async function account(email: string): Promise<string> {
  await api.addAccount(email);
  return (await accountOf(email)).id;
}

const signIn = (email: string, password: string, agent = 'tests'): Promise<Answer> =>
  api.rest('POST', '/sessions', { body: { email, password }, headers: { 'user-agent': agent } });

const statusOfMe = async (token: string): Promise<number> =>
  (await api.rest('GET', '/me', { token })).status;

const sessionsShape = z.object({
  items: z.array(
    z.object({
      id: z.uuid(),
      agent: z.string(),
      current: z.boolean(),
      lastSeenAt: z.iso.datetime(),
    }),
  ),
});
const listOf = async (token: string) =>
  sessionsShape.parse((await api.rest('GET', '/sessions', { token })).body).items;

/** Without what differs from call to call. */
const told = ({ status, body }: Answer): unknown => ({ status, body: { ...body, instance: null } });

async function giveTotp(accountId: string): Promise<void> {
  await database.owner.totp.create({
    data: { accountId, secret: new Uint8Array(20), confirmedAt: new Date() },
  });
}

describe('signing in', () => {
  test('gives a token of which only the hash is kept, its csrf value, and a cookie', async () => {
    const answer = await signIn('INES@yard.test', testPassword, 'Mozilla/5.0 (workshop tablet)');
    expect(answer.status).toBe(201);
    const { token } = z
      .strictObject({ token: z.string(), expiresAt: z.iso.datetime(), csrf: z.string() })
      .parse(answer.body);
    // OWASP Session Management: at least 64 bits of entropy; these are 256.
    expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    const cookie = answer.headers.get('set-cookie') ?? '';
    expect(cookie).toMatch(
      new RegExp(`^curewright_session=${token}; Path=/; Max-Age=\\d+; HttpOnly; SameSite=Lax$`),
    );
    const tokenHash = createHash('sha256').update(token).digest();
    const stored = await database.owner.session.findUniqueOrThrow({
      where: { tokenHash: new Uint8Array(tokenHash) },
    });
    expect(stored.agent).toBe('Mozilla/5.0 (workshop tablet)');
    expect(stored.secondFactorAt).toBeNull();
    expect(stored.expiresAt.getTime() - Date.now()).toBeCloseTo(14 * 24 * 3_600_000, -6);
    expect((await api.rest('GET', '/me', { token })).body).toMatchObject({
      email: ines,
      csrf: answer.body.csrf,
      secondFactorAt: null,
    });
  });

  // That it takes as long is measured by `npm run bench -- --only sign-in`.
  test('an unknown account is answered as a wrong password is', async () => {
    const [unknown, wrong] = [
      await signIn('nobody@yard.test', 'not the password'),
      await signIn(ines, 'not the password'),
    ].map(told);
    expect(wrong).toMatchObject({ status: 401, body: { code: 'access.credentials' } });
    expect(unknown).toEqual(wrong);
  });

  test('a hash of a lower cost is made anew, and the password stays', async () => {
    const id = await account('weak@yard.test');
    const passwordHash = await hash(testPassword, { memoryCost: 8_192, timeCost: 1 });
    await database.owner.account.update({ where: { id }, data: { passwordHash } });
    for (let i = 0; i < 2; i += 1) {
      expect((await signIn('weak@yard.test', testPassword)).status).toBe(201);
      const now = await accountOf('weak@yard.test');
      expect(now.passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    }
    expect((await signIn('weak@yard.test', 'not the password')).status).toBe(401);
  });

  test('with a second factor the password alone opens nothing', async () => {
    const id = await account('two@yard.test');
    await giveTotp(id);
    const answer = await signIn('two@yard.test', testPassword);
    expect(answer.status).toBe(201);
    const { pending } = z.strictObject({ pending: z.string() }).parse(answer.body);
    expect(answer.headers.get('set-cookie')).toBeNull();
    expect(await statusOfMe(pending)).toBe(401);
    expect(await database.owner.session.count({ where: { accountId: id } })).toBe(0);
    const [kept] = await database.owner.pendingSignIn.findMany({ where: { accountId: id } });
    expect(kept.expiresAt.getTime() - Date.now()).toBeLessThanOrEqual(5 * 60_000);
  });
});

describe('sessions', () => {
  test('are listed, and closed one by one, the others, or all', async () => {
    await account('many@yard.test');
    const tokens: string[] = [];
    for (const agent of ['bench', 'phone', 'office', 'hull']) {
      const { body } = await signIn('many@yard.test', testPassword, agent);
      tokens.push(z.string().parse(body.token));
    }
    const [bench, phone, office, hull] = tokens;
    const list = await listOf(office);
    expect(list.map(({ agent, current }) => [agent, current])).toEqual([
      ['hull', false],
      ['office', true],
      ['phone', false],
      ['bench', false],
    ]);
    expect((await api.rest('DELETE', `/sessions/${list[0].id}`, { token: office })).status).toBe(
      204,
    );
    expect([await statusOfMe(hull), await statusOfMe(phone)]).toEqual([401, 200]);

    const others = await api.rest('DELETE', '/sessions/others', { token: office });
    expect(others).toMatchObject({ status: 200, body: { closed: 2 } });
    expect([await statusOfMe(bench), await statusOfMe(phone), await statusOfMe(office)]).toEqual([
      401, 401, 200,
    ]);
    const all = await api.rest('DELETE', '/sessions', { token: office });
    expect(all).toMatchObject({ status: 200, body: { closed: 1 } });
    expect(all.headers.get('set-cookie')).toMatch(/^curewright_session=; Path=\/; Max-Age=0;/);
    expect(await statusOfMe(office)).toBe(401);
  });

  test('of somebody else are not there', async () => {
    const token = await api.signIn(ines);
    const [theirs] = await listOf(await api.signIn(bram));
    const foreign = await api.rest('DELETE', `/sessions/${theirs.id}`, { token });
    const missing = await api.rest('DELETE', `/sessions/${crypto.randomUUID()}`, { token });
    expect([foreign.status, missing.status]).toEqual([404, 404]);
    expect(foreign.body.code).toBe(missing.body.code);
    expect((await api.rest('DELETE', '/sessions/nonsense', { token })).status).toBe(404);
    expect((await listOf(token)).map(({ id }) => id)).not.toContain(theirs.id);
  });

  test('sign out closes the one, by the cookie with its csrf value as well', async () => {
    const token = await api.signIn(ines);
    const { body } = await api.rest('GET', '/me', { token });
    const headers = { cookie: `curewright_session=${token}` };
    expect((await api.rest('DELETE', '/sessions/current', { headers })).body.code).toBe(
      'access.forged',
    );
    const proof = { ...headers, 'x-csrf-token': z.string().parse(body.csrf) };
    const out = await api.rest('DELETE', '/sessions/current', { headers: proof });
    expect(out.status).toBe(204);
    expect(await statusOfMe(token)).toBe(401);
  });

  test('end after their days, after an hour of nothing, and are then cleared away', async () => {
    const id = await account('idle@yard.test');
    const [idle, old, live] = [
      await api.signIn('idle@yard.test'),
      await api.signIn('idle@yard.test'),
      await api.signIn('idle@yard.test'),
    ];
    const hashOf = (token: string) => new Uint8Array(createHash('sha256').update(token).digest());
    const change = (
      token: string,
      data: Partial<Record<'createdAt' | 'lastSeenAt' | 'expiresAt', Date>>,
    ) => database.owner.session.update({ where: { tokenHash: hashOf(token) }, data });
    const minutesAgo = (minutes: number): Date => new Date(Date.now() - minutes * 60_000);

    await change(idle, { lastSeenAt: minutesAgo(59) });
    // A sign of life: the hour counts from here.
    expect(await statusOfMe(idle)).toBe(200);
    await change(idle, { lastSeenAt: minutesAgo(61) });
    await change(old, { createdAt: minutesAgo(9), expiresAt: minutesAgo(1) });
    expect([await statusOfMe(idle), await statusOfMe(old), await statusOfMe(live)]).toEqual([
      401, 401, 200,
    ]);
    expect(await listOf(live)).toHaveLength(1);
    // Each process clears at its start, and every hour.
    const another = await startApi({ databaseUrl: database.serviceUrl, port: 0, ...options });
    await another.close();
    const left = await database.owner.session.findMany({ where: { accountId: id } });
    expect(left.map(({ tokenHash }) => Buffer.from(tokenHash).toString('hex'))).toEqual([
      Buffer.from(hashOf(live)).toString('hex'),
    ]);
  });
});

describe('the own account', () => {
  test('is renamed, unless it changed since it was read', async () => {
    await account('rename@yard.test');
    const token = await api.signIn('rename@yard.test');
    const etag = (await api.rest('GET', '/me', { token })).headers.get('etag') ?? '';
    const rename = (name: string, tag: string) =>
      api.rest('PATCH', '/me', { token, body: { name }, headers: { 'if-match': tag } });
    expect((await rename('Rena', etag)).body).toMatchObject({ name: 'Rena', memberships: [] });
    expect(await rename('Renata', etag)).toMatchObject({ status: 412 });
    const empty = await rename(' ', etag);
    expect(faultsOf(empty.body)).toEqual([['name', 'input.field']]);
    expect((await api.rest('PATCH', '/me', { token, body: { name: 'x' } })).status).toBe(428);
  });

  test('in GraphQL too', async () => {
    await account('graph@yard.test');
    const signedIn = await api.graphql(
      'mutation ($input: SignInInput!) { signIn(input: $input) { token csrf pending } }',
      { input: { email: 'graph@yard.test', password: testPassword } },
    );
    const { data } = z
      .object({
        data: z.object({
          signIn: z.object({ token: z.string(), csrf: z.string(), pending: z.null() }),
        }),
      })
      .parse(signedIn.body);
    const { token, csrf } = data.signIn;
    await api.signIn('graph@yard.test');
    const ask = async (query: string) => (await api.graphql(query, {}, { token })).body;

    expect(await ask('{ me { email csrf revision secondFactorAt } }')).toEqual({
      data: { me: { email: 'graph@yard.test', csrf, revision: 1, secondFactorAt: null } },
    });
    expect(
      await ask('mutation { updateMe(revision: 1, input: { name: "Gral" }) { name } }'),
    ).toEqual({
      data: { updateMe: { name: 'Gral' } },
    });
    const listed = z
      .object({
        data: z.object({
          mySessions: z.object({
            items: z.array(z.object({ id: z.string(), current: z.boolean() })),
          }),
        }),
      })
      .parse(await ask('{ mySessions { items { id current } } }'));
    const { items } = listed.data.mySessions;
    expect(items.map(({ current }) => current)).toEqual([false, true]);
    expect(await ask(`mutation { closeSession(id: "${items[0].id}") }`)).toEqual({
      data: { closeSession: true },
    });
    expect(await ask('mutation { closeOtherSessions { closed } }')).toEqual({
      data: { closeOtherSessions: { closed: 0 } },
    });
    expect(await ask('mutation { signOutEverywhere { closed } }')).toEqual({
      data: { signOutEverywhere: { closed: 1 } },
    });
    expect(await ask('{ me { email } }')).toMatchObject({
      errors: [{ extensions: { code: 'access.sign-in' } }],
    });
    const again = await api.signIn('graph@yard.test');
    expect((await api.graphql('mutation { signOut }', {}, { token: again })).body).toEqual({
      data: { signOut: true },
    });
    expect(await statusOfMe(again)).toBe(401);
  });
});
