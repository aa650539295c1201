import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { z } from 'zod';
import { type Answer, faultsOf, testApi, testPassword } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { mailbox } from '../support/mails.ts';
import { codeAt, fromBase32, setUpTotp, type Totp } from '../support/one-time-code.ts';
import { whileHeld } from '../support/while-held.ts';

const mails = mailbox();
const database = testDatabase();
const api = testApi(database, { mail: { folder: mails.folder } });
const strict = testApi(database, { signInAttempts: 5, trustProxy: 1 });
/** An address that nobody else of this file calls from. */
const stranger = { 'x-forwarded-for': '203.0.113.7' };

// The service runs in this process and tells the time by the same clock: no half minute is waited for.
beforeAll(() => {
  vi.useFakeTimers({ toFake: ['Date'], now: Date.now() });
});
afterAll(() => vi.useRealTimers());
const later = (ms: number): void => {
  vi.setSystemTime(Date.now() + ms);
};
const step = 30_000;

let people = 0;
/** A fresh account, signed in. */
async function somebody(): Promise<{ email: string; token: string }> {
  people += 1;
  const email = `person-${String(people)}@yard.test`;
  await api.addAccount(email);
  return { email, token: await api.signIn(email) };
}

/** One with codes switched on, half a minute ago. */
async function somebodyWithCodes(): Promise<Totp & { email: string }> {
  const { email, token } = await somebody();
  const totp = await setUpTotp(api, token);
  later(step);
  return { ...totp, email };
}

const password = testPassword;
const tokenOf = ({ body }: Answer): string => z.string().parse(body.token);
const codeOf = ({ status, body }: Answer): [number, unknown] => [status, body.code];

async function pendingOf(email: string): Promise<string> {
  const { status, body } = await api.rest('POST', '/sessions', { body: { email, password } });
  expect([status, Object.keys(body)]).toEqual([201, ['pending']]);
  return z.string().parse(body.pending);
}
const signIn = (pending: string, code: string) =>
  api.rest('POST', '/sessions/second-factor', { body: { pending, code } });
const factorOf = (token: string) => api.rest('GET', '/second-factor', { token });

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
const recoveryHashOf = (code: string): Uint8Array =>
  createHash('sha256').update(code.replaceAll('-', '')).digest();

/** The rows that a thief of the database would look through, bytes as hex. */
async function everythingStored(): Promise<string> {
  const rows = await database.owner.$queryRaw<{ text: string }[]>`
    SELECT concat((SELECT json_agg(t) FROM totp t), (SELECT json_agg(r) FROM recovery_code r),
                  (SELECT json_agg(a) FROM audit a)) AS text`;
  return rows[0].text;
}

/** Waits for a mail that says so. */
const told = async (email: string, words: string): Promise<void> => {
  const texts = async (): Promise<string> =>
    (await mails.to(email)).map((text) => text.replaceAll(/\s+/g, ' ')).join('\n');
  await expect.poll(texts).toContain(words);
};

describe('setting up', () => {
  it('needs the password again, and asks for nothing before a first code was right', async () => {
    const { email, token } = await somebody();
    const wrong = await api.rest('POST', '/second-factor/totp', {
      token,
      body: { password: 'not the password' },
    });
    expect([wrong.status, faultsOf(wrong.body)]).toEqual([422, [['password', 'input.field']]]);
    expect(await database.owner.totp.count()).toBe(0);

    const begun = await api.rest('POST', '/second-factor/totp', { token, body: { password } });
    const secret = z.string().length(32).parse(begun.body.secret);
    expect(begun.status).toBe(201);
    expect(new URL(z.string().parse(begun.body.uri)).searchParams.get('secret')).toBe(secret);
    expect(await factorOf(token)).toMatchObject({
      body: { totpSince: null, recoveryCodesLeft: 0, passkeys: 0, shownAt: null },
    });
    expect(await api.signIn(email)).not.toBe('');

    const missed = await api.rest('POST', '/second-factor/totp/confirm', {
      token,
      body: { code: codeAt(secret, Date.now() - 2 * step) },
    });
    expect(codeOf(missed)).toEqual([401, 'access.code']);
    expect(await api.signIn(email)).not.toBe('');
  });

  it('waits a quarter of an hour for the first code, and begins anew with another secret', async () => {
    const { token } = await somebody();
    const begin = (as = token) =>
      api.rest('POST', '/second-factor/totp', { token: as, body: { password } });
    const confirm = (secret: unknown) =>
      api.rest('POST', '/second-factor/totp/confirm', {
        token,
        body: { code: codeAt(z.string().parse(secret)) },
      });
    const first = await begin();
    later(15 * 60_000 + 1000);
    expect(codeOf(await confirm(first.body.secret))).toEqual([404, 'record.missing']);
    later(-15 * 60_000 - 1000);
    const second = await begin();
    expect(second.body.secret).not.toBe(first.body.secret);
    expect(codeOf(await confirm(first.body.secret))).toEqual([401, 'access.code']);
    const { session } = z
      .object({ session: z.object({ token: z.string() }) })
      .parse((await confirm(second.body.secret)).body);
    expect(codeOf(await begin(session.token))).toEqual([409, 'record.exists']);
  });

  it('gives ten recovery codes and the session a new token; the old one is void', async () => {
    const { email, token } = await somebody();
    const before = await database.owner.session.findMany({ where: { account: { email } } });
    const totp = await setUpTotp(api, token);
    expect(new Set(totp.recoveryCodes).size).toBe(10);
    expect(codeOf(await factorOf(token))).toEqual([401, 'access.sign-in']);
    expect(await factorOf(totp.token)).toMatchObject({
      status: 200,
      body: {
        recoveryCodesLeft: 10,
        totpSince: expect.any(String) as string,
        shownAt: expect.any(String) as string,
      },
    });
    const after = await database.owner.session.findMany({ where: { account: { email } } });
    expect(after.map(({ id, expiresAt }) => [id, expiresAt])).toEqual(
      before.map(({ id, expiresAt }) => [id, expiresAt]),
    );
  });

  it('keeps neither secret nor recovery codes readable, and the secret only in its own row', async () => {
    const one = await somebodyWithCodes();
    const other = await somebodyWithCodes();
    const idOf = async (email: string) =>
      (await database.owner.account.findUniqueOrThrow({ where: { email } })).id;
    const stored = await everythingStored();
    expect(stored).toContain(hex(recoveryHashOf(one.recoveryCodes[0])));
    const secrets = [one.secret, ...one.recoveryCodes.map((code) => code.replaceAll('-', ''))];
    for (const secret of [...secrets, hex(fromBase32(one.secret))]) {
      expect(stored).not.toContain(secret);
      expect(stored).not.toContain(hex(Buffer.from(secret)));
    }

    const [accountId, otherId] = [await idOf(one.email), await idOf(other.email)];
    const { secret } = await database.owner.totp.findUniqueOrThrow({ where: { accountId } });
    await database.owner.totp.update({ where: { accountId: otherId }, data: { secret } });
    const pending = await pendingOf(other.email);
    expect(codeOf(await signIn(pending, codeAt(one.secret)))).toEqual([503, 'service.unavailable']);
    expect((await signIn(pending, other.recoveryCodes[0])).status).toBe(201);
  });
});

describe('signing in with a password and a code', () => {
  it('gives no session and no cookie for the password, both for the code', async () => {
    const { email, secret } = await somebodyWithCodes();
    const half = await api.rest('POST', '/sessions', { body: { email, password } });
    expect([half.status, Object.keys(half.body), half.headers.get('set-cookie')]).toEqual([
      201,
      ['pending'],
      null,
    ]);
    const pending = z.string().parse(half.body.pending);
    expect(codeOf(await factorOf(pending))).toEqual([401, 'access.sign-in']);

    const whole = await signIn(pending, codeAt(secret));
    expect(whole.status).toBe(201);
    expect(whole.headers.get('set-cookie')).toContain(tokenOf(whole));
    expect(await factorOf(tokenOf(whole))).toMatchObject({
      body: { shownAt: new Date().toISOString() },
    });
    expect(codeOf(await signIn(pending, codeAt(secret, Date.now() + step)))).toEqual([
      401,
      'access.sign-in',
    ]);
  });

  it('takes no code twice, and none of before the last', async () => {
    const { email, secret } = await somebodyWithCodes();
    const now = Date.now();
    const answer = async (at: number) =>
      codeOf(await signIn(await pendingOf(email), codeAt(secret, at)))[0];
    expect(await answer(now)).toBe(201);
    expect(await answer(now)).toBe(401);
    expect(await answer(now - step)).toBe(401);
    expect(await answer(now + 2 * step)).toBe(401);
    expect(await answer(now + step)).toBe(201);
    expect(await answer(now)).toBe(401);
    later(step);
    expect(await answer(now + step)).toBe(401);
    expect(await answer(now + 2 * step)).toBe(201);
  });

  it('gives one session for a code that twelve bring at once', async () => {
    const { email, secret } = await somebodyWithCodes();
    const pendings: string[] = [];
    for (let n = 0; n < 12; n += 1) pendings.push(await pendingOf(email));
    const code = codeAt(secret);
    const answers = await Promise.all(pendings.map((pending) => signIn(pending, code)));
    expect(answers.map(({ status }) => status).sort()).toEqual([
      201,
      ...Array.from({ length: 11 }, () => 401),
    ]);
  });

  it('takes each recovery code once, however typed and at once, and tells the person', async () => {
    const { email, recoveryCodes } = await somebodyWithCodes();
    const pendings = [await pendingOf(email), await pendingOf(email), await pendingOf(email)];
    const typed = recoveryCodes[3].toUpperCase().replaceAll('-', ' ').replaceAll('0', 'O');
    const answers = await Promise.all(pendings.map((pending) => signIn(pending, typed)));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 401, 401]);
    const token = z.string().parse(answers.find(({ status }) => status === 201)?.body.token);
    expect(await factorOf(token)).toMatchObject({ body: { recoveryCodesLeft: 9 } });
    await told(email, '9 of them are left');
  });

  it('may be tried five times, within its time', async () => {
    const { email, secret } = await somebodyWithCodes();
    const pending = await pendingOf(email);
    for (let n = 0; n < 5; n += 1) {
      expect(codeOf(await signIn(pending, '000000'))).toEqual([401, 'access.code']);
    }
    expect(codeOf(await signIn(pending, codeAt(secret)))).toEqual([401, 'access.sign-in']);

    const old = await pendingOf(email);
    await database.owner.$executeRaw`
      UPDATE pending_sign_in SET created_at = now() - interval '6 minutes', expires_at = now() - interval '1 minute'
      WHERE attempts = 0 AND account_id = (SELECT id FROM account WHERE email = ${email})`;
    expect(codeOf(await signIn(old, codeAt(secret)))).toEqual([401, 'access.sign-in']);
    expect((await signIn(await pendingOf(email), codeAt(secret))).status).toBe(201);
  });

  it('makes whoever guesses wait, who has the password too, however often they begin', async () => {
    const { email, secret } = await somebodyWithCodes();
    const guess = async (): Promise<number> => {
      const body = { email, password };
      const begun = await strict.rest('POST', '/sessions', { body, headers: stranger });
      if (begun.status !== 201) return begun.status;
      return (await answer(z.string().parse(begun.body.pending), '000000')).status;
    };
    const answer = (pending: string, code: string) =>
      strict.rest('POST', '/sessions/second-factor', {
        body: { pending, code },
        headers: stranger,
      });
    const guesses: number[] = [];
    for (let n = 0; n < 8; n += 1) guesses.push(await guess());
    expect(guesses).toEqual([401, 401, 401, 401, 401, 429, 429, 429]);

    const right = await answer(await pendingOf(email), codeAt(secret));
    expect(codeOf(right)).toEqual([429, 'access.often']);
    expect(Number(right.headers.get('retry-after'))).toBeGreaterThan(0);
    // From where they signed in before, the person still comes in.
    expect((await signIn(await pendingOf(email), codeAt(secret))).status).toBe(201);
  });
});

describe('in a session', () => {
  it('switching codes on closes the others, which have shown none', async () => {
    const { email, token: elsewhere } = await somebody();
    await setUpTotp(api, await api.signIn(email));
    expect(codeOf(await factorOf(elsewhere))).toEqual([401, 'access.sign-in']);
    await told(email, 'One other session was closed.');
  });

  it('no sign-in under way outlives the switching on', async () => {
    const { email } = await somebody();
    const where = { account: { email } };
    const { accountId } = await database.owner.session.findFirstOrThrow({ where });
    const switchOn = [
      `SELECT FROM account WHERE id = '${accountId}' FOR UPDATE`,
      `INSERT INTO totp (account_id, secret, confirmed_at) VALUES ('${accountId}', '\\x00', now())`,
    ];
    const opened = await whileHeld(database.ownerUrl, switchOn, () =>
      api.rest('POST', '/sessions', { body: { email, password } }),
    );
    expect(opened).toMatchObject({ status: 401, body: { code: 'access.sign-in' } });
    expect(await database.owner.session.count({ where })).toBe(1);
  });

  it('one shows a code again, and goes on under a new token', async () => {
    const totp = await somebodyWithCodes();
    const elsewhere = tokenOf(await signIn(await pendingOf(totp.email), codeAt(totp.secret)));
    later(step);
    const stepUp = (token: string, code: string) =>
      api.rest('POST', '/sessions/current/second-factor', { token, body: { code } });
    expect(codeOf(await stepUp(elsewhere, '000000'))).toEqual([401, 'access.code']);
    const shown = await stepUp(elsewhere, codeAt(totp.secret));
    expect([shown.status, shown.headers.get('set-cookie')]).toEqual([200, null]);
    expect(codeOf(await factorOf(elsewhere))).toEqual([401, 'access.sign-in']);
    expect(await factorOf(tokenOf(shown))).toMatchObject({
      body: { shownAt: new Date().toISOString() },
    });
  });

  it('of a browser, the new token is in its cookie', async () => {
    const totp = await somebodyWithCodes();
    const signedIn = await signIn(await pendingOf(totp.email), codeAt(totp.secret));
    const cookie = z.string().parse(signedIn.headers.get('set-cookie')?.split(';')[0]);
    later(step);
    const stepUp = (headers: Record<string, string>) =>
      api.rest('POST', '/sessions/current/second-factor', {
        headers,
        body: { code: codeAt(totp.secret) },
      });
    expect(codeOf(await stepUp({ cookie }))).toEqual([403, 'access.forged']);
    const csrf = z.string().parse(signedIn.body.csrf);
    const shown = await stepUp({ cookie, 'x-csrf-token': csrf });
    expect(shown.status).toBe(200);
    const renewed = z.string().parse(shown.headers.get('set-cookie')?.split(';')[0]);
    expect(renewed).toBe(cookie.replace(/=.*/, `=${tokenOf(shown)}`));

    const inGraphql = await api.graphql(
      'mutation ($input: SecondFactorCodeInput!) { showSecondFactor(input: $input) { token } }',
      { input: { code: totp.recoveryCodes[0] } },
      { headers: { cookie: renewed, 'x-csrf-token': z.string().parse(shown.body.csrf) } },
    );
    const { data } = z
      .object({ data: z.object({ showSecondFactor: z.object({ token: z.string() }) }) })
      .parse(inGraphql.body);
    expect(inGraphql.headers.get('set-cookie')).toContain(data.showSecondFactor.token);
  });

  it('new recovery codes cost the password and a code, and void the old', async () => {
    const { email, secret, token, recoveryCodes } = await somebodyWithCodes();
    const renew = (body: object) =>
      api.rest('POST', '/second-factor/recovery-codes', { token, body });
    expect((await renew({ password: 'wrong', code: codeAt(secret) })).status).toBe(422);
    expect((await renew({ password, code: '000000' })).status).toBe(401);
    const renewed = await renew({ password, code: codeAt(secret) });
    expect(renewed.status).toBe(201);
    const fresh = z.array(z.string()).length(10).parse(renewed.body.recoveryCodes);
    expect(new Set([...fresh, ...recoveryCodes]).size).toBe(20);
    const pending = await pendingOf(email);
    expect((await signIn(pending, recoveryCodes[0])).status).toBe(401);
    expect((await signIn(pending, fresh[0])).status).toBe(201);
  });

  it('switching off costs the password and a code, and leaves no session with a factor', async () => {
    const { email, secret, token } = await somebodyWithCodes();
    const remove = (body: object) => api.rest('DELETE', '/second-factor/totp', { token, body });
    expect((await remove({ password: 'wrong', code: codeAt(secret) })).status).toBe(422);
    expect((await remove({ password, code: '000000' })).status).toBe(401);
    expect((await remove({ password })).status).toBe(422);
    expect(await factorOf(token)).toMatchObject({
      body: { totpSince: expect.any(String) as string },
    });

    expect((await remove({ password, code: codeAt(secret) })).status).toBe(204);
    expect(await factorOf(token)).toMatchObject({
      body: { totpSince: null, recoveryCodesLeft: 0, passkeys: 0, shownAt: null },
    });
    expect(await api.signIn(email)).not.toBe('');
    expect((await remove({ password, code: codeAt(secret) })).status).toBe(401);
    await told(email, 'codes are on');
    await told(email, 'codes are off');
  });
});

it('is told of in the OpenAPI document, the body of DELETE too (RFC 9110, 9.3.5)', async () => {
  const { body } = await api.rest('GET', '/openapi.json');
  expect(body).toMatchObject({
    paths: {
      '/api/v1/second-factor/totp': {
        delete: {
          requestBody: {
            required: true,
            content: {
              'application/json': { schema: { $ref: '#/components/schemas/FactorChangeInput' } },
            },
          },
        },
      },
    },
  });
});

describe('the same in GraphQL', () => {
  it('sets up, signs in, shows, renews and switches off', async () => {
    const { email, token } = await somebody();
    const ask = async (query: string, input: object, as?: string) => {
      const { body } = await api.graphql(query, { input }, as === undefined ? {} : { token: as });
      expect(body.errors, query).toBeUndefined();
      const data = z.record(z.string(), z.unknown()).parse(body.data);
      return data[Object.keys(data)[0]];
    };
    const begun = await ask(
      'mutation ($input: TotpSetUpInput!) { setUpTotp(input: $input) { secret uri confirmBefore } }',
      { password },
      token,
    );
    const { secret } = z.object({ secret: z.string() }).parse(begun);
    const confirmed = await ask(
      'mutation ($input: TotpConfirmInput!) { confirmTotp(input: $input) { recoveryCodes session { token } } }',
      { code: codeAt(secret) },
      token,
    );
    const { recoveryCodes, session } = z
      .object({ recoveryCodes: z.array(z.string()), session: z.object({ token: z.string() }) })
      .parse(confirmed);
    later(step);

    const whole = await ask(
      'mutation ($input: CodeSignInInput!) { signInWithCode(input: $input) { token csrf expiresAt } }',
      { pending: await pendingOf(email), code: codeAt(secret) },
    );
    const signedIn = z.object({ token: z.string() }).parse(whole);
    const shown = await ask(
      'mutation ($input: SecondFactorCodeInput!) { showSecondFactor(input: $input) { token } }',
      { code: recoveryCodes[0] },
      signedIn.token,
    );
    const last = z.object({ token: z.string() }).parse(shown).token;
    const state = await api.graphql(
      '{ secondFactor { recoveryCodesLeft passkeys shownAt } }',
      {},
      {
        token: session.token,
      },
    );
    expect(state.body.data).toMatchObject({ secondFactor: { recoveryCodesLeft: 9, passkeys: 0 } });

    const renewed = await ask(
      'mutation ($input: FactorChangeInput!) { renewRecoveryCodes(input: $input) { recoveryCodes } }',
      { password, code: recoveryCodes[1] },
      last,
    );
    const fresh = z.object({ recoveryCodes: z.array(z.string()).length(10) }).parse(renewed);
    const off = await ask(
      'mutation ($input: FactorChangeInput!) { removeTotp(input: $input) }',
      { password, code: fresh.recoveryCodes[9] },
      last,
    );
    expect(off).toBe(true);
    expect(await api.signIn(email)).not.toBe('');
  });
});
