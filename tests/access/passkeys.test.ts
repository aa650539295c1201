import { randomBytes } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type Answer, faultsOf, testApi, testPassword } from '../support/api.ts';
import {
  authenticator,
  type Authenticator,
  type Cbor,
  type Wrong,
} from '../support/authenticator.ts';
import { testDatabase } from '../support/database.ts';
import { setUpTotp } from '../support/one-time-code.ts';
import { resetPassword } from '../support/reset-password.ts';

const database = testDatabase();
const origin = 'https://yard.test';
const api = testApi(database, { publicUrl: new URL(origin) });
const elsewhere = 'https://yard.test.example';

const password = testPassword;
const offer = z.object({ challengeId: z.string(), options: z.record(z.string(), z.unknown()) });
const codeOf = ({ status, body }: Answer): [number, unknown] => [status, body.code];
const refused = [401, 'access.passkey'];
const tokenOf = ({ body }: Answer): string => z.string().parse(body.token);

let people = 0;
async function somebody(): Promise<{ email: string; token: string }> {
  people += 1;
  const email = `person-${String(people)}@yard.test`;
  await api.addAccount(email);
  return { email, token: await api.signIn(email) };
}

async function optionsFor(token: string, typed = password) {
  const sent = { token, body: { password: typed } };
  const { body } = await api.rest('POST', '/passkeys/options', sent);
  return offer.parse(body);
}
const requestFor = async () =>
  offer.parse((await api.rest('POST', '/sessions/passkey/options')).body);

const add = (token: string, challengeId: string, credential: unknown, name = 'phone') =>
  api.rest('POST', '/passkeys', { token, body: { challengeId, name, credential } });
const signIn = (challengeId: string, credential: unknown) =>
  api.rest('POST', '/sessions/passkey', { body: { challengeId, credential } });

/** Adds a passkey that an authenticator just made. */
async function enrol(token: string, device: Authenticator, wrong?: Wrong, name?: string) {
  const { challengeId, options } = await optionsFor(token);
  return add(token, challengeId, device.make(options, wrong), name);
}

async function enter(device: Authenticator, wrong?: Wrong) {
  const { challengeId, options } = await requestFor();
  return signIn(challengeId, device.use(options, wrong));
}

async function somebodyWithPasskey() {
  const { email, token } = await somebody();
  const device = authenticator(origin);
  expect((await enrol(token, device)).status).toBe(201);
  const entered = await enter(device);
  return { email, device, passwordToken: token, token: tokenOf(entered) };
}

describe('making a passkey', () => {
  it('is offered after the password, for a key that stays on the device and asks for the person', async () => {
    const { email, token } = await somebody();
    const wrong = await api.rest('POST', '/passkeys/options', {
      token,
      body: { password: 'not the password' },
    });
    expect([wrong.status, faultsOf(wrong.body)]).toEqual([422, [['password', 'input.field']]]);
    const { options } = await optionsFor(token);
    expect(options).toMatchObject({
      rp: { id: 'yard.test', name: 'Curewright' },
      user: { name: email },
      attestation: 'none',
      authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
      excludeCredentials: [],
    });
    // 16 bytes at least (level 3, 13.4.3), and nothing of the person in the handle (14.6.1).
    expect(Buffer.from(z.string().parse(options.challenge), 'base64url').length).toBeGreaterThan(
      15,
    );
    expect(JSON.stringify(options.user)).not.toContain(Buffer.from(email).toString('base64url'));
    expect((await optionsFor(token)).options.challenge).not.toBe(options.challenge);
  });

  it('keeps its public key, and signs in without e-mail or password, as a second factor too', async () => {
    const { email, token } = await somebody();
    const device = authenticator(origin);
    const added = await enrol(token, device, {}, 'telephone');
    expect(added).toMatchObject({ status: 201, body: { name: 'telephone', lastUsedAt: null } });
    const entered = await enter(device);
    expect(entered.status).toBe(201);
    expect(entered.headers.get('set-cookie')).toContain(tokenOf(entered));
    const me = await api.rest('GET', '/me', { token: tokenOf(entered) });
    expect(me.body.email).toBe(email);
    const factor = await api.rest('GET', '/second-factor', { token: tokenOf(entered) });
    expect(factor.body).toMatchObject({ passkeys: 1, shownAt: expect.any(String) as string });
    const { body } = await api.rest('GET', '/passkeys', { token });
    expect(body.items).toMatchObject([
      { name: 'telephone', lastUsedAt: expect.any(String) as string },
    ]);
    const stored = await database.owner.passkey.findUniqueOrThrow({
      where: { id: z.string().parse(added.body.id) },
    });
    expect([stored.counter, stored.transports]).toEqual([2n, ['internal', 'hybrid']]);
  });

  const wrongs: Record<string, Wrong> = {
    'on another site’s page': { origin: elsewhere },
    'on our page at another port': { origin: `${origin}:8443` },
    'without TLS': { origin: 'http://yard.test' },
    'for another site': { rpId: 'yard.test.example' },
    'in a frame of another site': { crossOrigin: true },
    'without asking for the person': { unverified: true },
    'with nobody there': { absent: true },
    'for another challenge': { challenge: randomBytes(32).toString('base64url') },
    'by signing in instead': { type: 'webauthn.get' },
    'of an algorithm that was not asked for': { algorithm: -47 },
    'with a statement that none has': { statement: new Map([['sig', 'x']]) },
    'with a made-up kind of attestation': { format: 'made-up' },
    'with certificates': {
      format: 'packed',
      statement: new Map<string, Cbor>([
        ['alg', -7],
        ['sig', randomBytes(70)],
        ['x5c', []],
      ]),
    },
  };
  it('is refused in each wrong way', async () => {
    const { token } = await somebody();
    for (const [name, wrong] of Object.entries(wrongs)) {
      expect(codeOf(await enrol(token, authenticator(origin), wrong)), name).toEqual(refused);
    }
    const { body } = await api.rest('GET', '/passkeys', { token });
    expect(body.items).toEqual([]);
    expect((await enrol(token, authenticator(origin))).status).toBe(201);
  });

  it('says which address is meant where the page is at another', async () => {
    const { token } = await somebody();
    const { body } = await enrol(token, authenticator(origin), { origin: elsewhere });
    expect(body.detail).toContain(elsewhere);
    expect(body.detail).toContain(`the service is at ${origin}`);
  });

  it('answers each challenge once, in time, and by whom it was given to', async () => {
    const [one, other] = [await somebody(), await somebody()];
    const device = authenticator(origin);
    const given = await optionsFor(one.token);
    expect(codeOf(await add(other.token, given.challengeId, device.make(given.options)))).toEqual(
      refused,
    );
    // It was taken back by the attempt, whoever made it.
    expect(codeOf(await add(one.token, given.challengeId, device.make(given.options)))).toEqual(
      refused,
    );
    const second = await optionsFor(one.token);
    const made = device.make(second.options);
    expect((await add(one.token, second.challengeId, made)).status).toBe(201);
    expect(codeOf(await add(one.token, second.challengeId, made))).toEqual(refused);

    const late = await optionsFor(other.token);
    await database.owner.$executeRaw`
      UPDATE passkey_challenge SET created_at = now() - interval '6 minutes', expires_at = now() - interval '1 second'`;
    expect(
      codeOf(await add(other.token, late.challengeId, authenticator(origin).make(late.options))),
    ).toEqual(refused);
    const atSignIn = await requestFor();
    const third = authenticator(origin);
    const fromThere = { ...second.options, challenge: atSignIn.options.challenge };
    expect(codeOf(await add(other.token, atSignIn.challengeId, third.make(fromThere)))).toEqual(
      refused,
    );
  });

  it('is told which devices have one, and takes no key twice, whosever', async () => {
    const { device, token } = await somebodyWithPasskey();
    const { options } = await optionsFor(token);
    expect(() => device.make(options)).toThrow('InvalidStateError');
    const other = await somebody();
    const theirs = await optionsFor(other.token);
    const copy = device.make(theirs.options);
    expect(codeOf(await add(other.token, theirs.challengeId, copy))).toEqual([
      409,
      'record.exists',
    ]);
  });

  it('names each field that is no answer of a browser', async () => {
    const { token } = await somebody();
    const answer = await api.rest('POST', '/passkeys', {
      token,
      body: { challengeId: '1', name: ' ', credential: { id: 'a+b', rawId: 'ab', type: 'key' } },
    });
    expect(answer.status).toBe(422);
    expect(
      faultsOf(answer.body)
        .map(([path]) => path)
        .sort(),
    ).toEqual(['challengeId', 'credential.id', 'credential.response', 'credential.type', 'name']);
  });
});

describe('signing in with a passkey', () => {
  const wrongs: Record<string, Wrong> = {
    'on another site’s page': { origin: elsewhere },
    'for another site': { rpId: 'yard.test.example' },
    'in a frame of another site': { crossOrigin: true },
    'without asking for the person': { unverified: true },
    'with nobody there': { absent: true },
    'for another challenge': { challenge: randomBytes(32).toString('base64url') },
    'by making a key instead': { type: 'webauthn.create' },
    'with a key that it never showed': { otherKey: true },
    'as another account': { userHandle: randomBytes(16).toString('base64url') },
    'with a counter that goes back': { counter: 1 },
    'with a counter that stands still': { counter: 2 },
    'with a counter at nought again': { counter: 0 },
  };
  it('is refused in each wrong way, and in the right way still goes', async () => {
    const { device, token } = await somebodyWithPasskey();
    const sessions = () => database.owner.session.count();
    const before = await sessions();
    for (const [name, wrong] of Object.entries(wrongs)) {
      expect(codeOf(await enter(device, wrong)), name).toEqual(refused);
    }
    expect(await sessions()).toBe(before);
    expect((await enter(device, { counter: 7 })).status).toBe(201);
    expect(codeOf(await enter(device, { counter: 7 }))).toEqual(refused);
    expect((await enter(device)).status).toBe(201);
    expect((await api.rest('GET', '/me', { token })).status).toBe(200);
  });

  it('takes an authenticator that counts nothing, as most that are copied among devices', async () => {
    const { token } = await somebody();
    const device = authenticator(origin);
    expect((await enrol(token, device, { counter: 0 })).status).toBe(201);
    for (let n = 0; n < 3; n += 1) expect((await enter(device, { counter: 0 })).status).toBe(201);
    expect((await enter(device, { counter: 5 })).status).toBe(201);
    expect(codeOf(await enter(device, { counter: 0 }))).toEqual(refused);
  });

  it('answers each challenge once: of ten that bring one answer, one comes in', async () => {
    const { device } = await somebodyWithPasskey();
    const { challengeId, options } = await requestFor();
    const answer = device.use(options);
    const answers = await Promise.all(
      Array.from({ length: 10 }, () => signIn(challengeId, answer)),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([
      201,
      ...Array.from({ length: 9 }, () => 401),
    ]);
  });

  it('takes no challenge that was given for making a key, and none of before a refusal', async () => {
    const { device, token } = await somebodyWithPasskey();
    const given = await optionsFor(token);
    const forMaking = { challenge: given.options.challenge, rpId: 'yard.test' };
    expect(codeOf(await signIn(given.challengeId, device.use(forMaking)))).toEqual(refused);
    const asked = await requestFor();
    expect(
      codeOf(await signIn(asked.challengeId, device.use(asked.options, { otherKey: true }))),
    ).toEqual(refused);
    expect(codeOf(await signIn(asked.challengeId, device.use(asked.options)))).toEqual(refused);
  });

  it('tells an unknown key from a wrong answer in nothing', async () => {
    const { device } = await somebodyWithPasskey();
    const { options } = await optionsFor((await somebody()).token);
    const stranger = authenticator(origin);
    stranger.make(options);
    const [unknown, wrong] = [await enter(stranger), await enter(device, { otherKey: true })];
    const told = ({ status, body }: Answer) => ({ ...body, status, instance: '' });
    expect(told(unknown)).toEqual(told(wrong));
  });
});

describe('the passkeys of an account', () => {
  it('are listed, renamed and removed by it alone', async () => {
    const { device, token } = await somebodyWithPasskey();
    const other = await somebody();
    const { body } = await api.rest('GET', '/passkeys', { token });
    const [{ id }] = z.array(z.object({ id: z.string() })).parse(body.items);
    const path = `/passkeys/${id}`;
    const rename = { body: { name: 'tablet' } };
    expect(codeOf(await api.rest('PATCH', path, { token: other.token, ...rename }))).toEqual([
      404,
      'record.missing',
    ]);
    expect(codeOf(await api.rest('DELETE', path, { token: other.token }))).toEqual([
      404,
      'record.missing',
    ]);
    expect(await api.rest('PATCH', path, { token, ...rename })).toMatchObject({
      status: 200,
      body: { id, name: 'tablet' },
    });
    expect((await api.rest('DELETE', path, { token })).status).toBe(204);
    expect(codeOf(await enter(device))).toEqual(refused);
    // With the last factor gone, the session that it opened counts as one without.
    const factor = await api.rest('GET', '/second-factor', { token });
    expect(factor.body).toMatchObject({ passkeys: 0, shownAt: null });
  });

  it('are twenty at most', async () => {
    const { token } = await somebody();
    const { accountId } = await database.owner.session.findFirstOrThrow({
      orderBy: { createdAt: 'desc' },
    });
    await database.owner.passkey.createMany({
      data: Array.from({ length: 20 }, (_, n) => ({
        id: `other-${String(n)}`,
        accountId,
        name: 'one of many',
        publicKey: randomBytes(77),
        counter: 0,
        transports: [],
      })),
    });
    await database.owner.session.updateMany({
      where: { accountId },
      data: { secondFactorAt: new Date() },
    });
    const full = await api.rest('POST', '/passkeys/options', { token, body: { password } });
    expect(codeOf(full)).toEqual([422, 'input.limit']);
  });
});

describe('who has the password alone', () => {
  it('replaces no passkey by a factor of their own', async () => {
    const { email, token } = await somebodyWithPasskey();
    const thief = await api.signIn(email);
    const { body } = await api.rest('GET', '/passkeys', { token: thief });
    const [{ id }] = z.array(z.object({ id: z.string() })).parse(body.items);
    const tries = [
      await api.rest('POST', '/second-factor/totp', { token: thief, body: { password } }),
      await api.rest('POST', '/passkeys/options', { token: thief, body: { password } }),
      await api.rest('DELETE', `/passkeys/${id}`, { token: thief }),
    ];
    for (const tried of tries) expect(codeOf(tried)).toEqual([403, 'access.second-factor']);
    expect((await setUpTotp(api, token)).recoveryCodes).toHaveLength(10);
  });

  it('adds none with options that were given before there was another', async () => {
    const { email, token } = await somebody();
    const early = await optionsFor(token);
    expect((await enrol(await api.signIn(email), authenticator(origin))).status).toBe(201);
    const made = authenticator(origin).make(early.options);
    expect(codeOf(await add(token, early.challengeId, made))).toEqual([
      403,
      'access.second-factor',
    ]);
  });

  it('is out when codes are switched on; the session that shows one may add a passkey', async () => {
    const { email, token } = await somebody();
    const shown = await setUpTotp(api, await api.signIn(email));
    const body = { oldPassword: password, password: 'seven wet herons on a crane' };
    const changed = await api.rest('PUT', '/me/password', { token, body });
    expect(codeOf(changed)).toEqual([401, 'access.sign-in']);

    // The account's other factor then goes without the code.
    const device = authenticator(origin);
    expect((await enrol(shown.token, device)).status).toBe(201);
    expect((await enter(device)).status).toBe(201);
  });
});

describe('an account made under the e-mail of somebody else', () => {
  it('is theirs alone once a link that was sent there has set its password', async () => {
    const { email, device, passwordToken, token } = await somebodyWithPasskey();
    const { id: accountId } = await database.owner.account.findUniqueOrThrow({ where: { email } });
    const theirs = { accountId, secret: new Uint8Array(20), confirmedAt: new Date() };
    await database.owner.totp.create({ data: theirs });
    const mine = 'seven wet herons on a crane';
    expect(await resetPassword(api, database, accountId, mine)).toBe(204);
    expect(codeOf(await enter(device))).toEqual(refused);
    const me = (old: string) => api.rest('GET', '/me', { token: old });
    expect([(await me(passwordToken)).status, (await me(token)).status]).toEqual([401, 401]);
    // No code of theirs is asked for either.
    const entered = await api.rest('POST', '/sessions', { body: { email, password: mine } });
    expect(entered.body).toHaveProperty('token');

    // From here on it is known whose the address is: what they set up stays.
    const own = authenticator(origin);
    const { challengeId, options } = await optionsFor(tokenOf(entered), mine);
    expect((await add(tokenOf(entered), challengeId, own.make(options))).status).toBe(201);
    expect(await resetPassword(api, database, accountId, `${mine} again`)).toBe(204);
    expect((await enter(own)).status).toBe(201);
  });
});

describe('the same in GraphQL', () => {
  it('makes, lists, renames, uses and removes', async () => {
    const { token } = await somebody();
    const device = authenticator(origin);
    const ask = async (query: string, variables: object, as?: string) => {
      const { body } = await api.graphql(query, variables, as === undefined ? {} : { token: as });
      expect(body.errors, query).toBeUndefined();
      const data = z.record(z.string(), z.unknown()).parse(body.data);
      return data[Object.keys(data)[0]];
    };
    const given = offer.parse(
      await ask(
        `mutation ($input: PasskeyOptionsInput!) { passkeyOptions(input: $input) { challengeId options {
          challenge timeout attestation rp { id name } user { id name displayName }
          pubKeyCredParams { type alg } excludeCredentials { type id transports }
          authenticatorSelection { residentKey requireResidentKey userVerification } } } }`,
        { input: { password } },
        token,
      ),
    );
    const { id, rawId, type, response } = device.make(given.options);
    const credential = { id, rawId, type, response };
    const { challengeId } = given;
    await ask(
      'mutation ($input: PasskeyInput!) { addPasskey(input: $input) { id name createdAt } }',
      { input: { challengeId, name: 'key', credential } },
      token,
    );
    const asked = offer.parse(
      await ask(
        'mutation { passkeySignInOptions { challengeId options { challenge rpId timeout userVerification } } }',
        {},
      ),
    );
    const used = device.use(asked.options);
    const answer = { id: used.id, rawId: used.rawId, type: used.type, response: used.response };
    const entered = await ask(
      'mutation ($input: PasskeySignInInput!) { signInWithPasskey(input: $input) { token expiresAt csrf } }',
      { input: { challengeId: asked.challengeId, credential: answer } },
    );
    const session = z.object({ token: z.string() }).parse(entered);
    await ask(
      'mutation ($id: ID!, $input: PasskeyPatch!) { renamePasskey(id: $id, input: $input) { id name } }',
      { id, input: { name: 'door' } },
      session.token,
    );
    const listed = await ask('{ passkeys { items { id name lastUsedAt } } }', {}, session.token);
    expect(listed).toMatchObject({ items: [{ id, name: 'door' }] });
    expect(await ask('mutation ($id: ID!) { removePasskey(id: $id) }', { id }, session.token)).toBe(
      true,
    );
  });
});
