import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type Answer, type Sending, testPassword } from '../support/api.ts';
import { setUpTotp } from '../support/one-time-code.ts';
import { smallYard } from '../support/small-yard.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';

const { api, tokens, database } = smallYardApi();
const path = '/yards/small/access-settings';
const codeOf = ({ status, body }: Answer): [number, unknown] => [status, body.code];
const graphqlCodeOf = ({ body }: Answer): unknown =>
  z.array(z.object({ extensions: z.object({ code: z.string() }) })).parse(body.errors)[0].extensions
    .code;

const read = (token: string) => api.rest('GET', path, { token });
async function change(token: string, body: object, headers?: Sending['headers']) {
  const etag = (await read(token)).headers.get('etag') ?? '"1"';
  return api.rest('PATCH', path, { token, body, headers: headers ?? { 'if-match': etag } });
}
/** A fresh session of the same person, opened with the password alone. */
const again = (who: keyof typeof people) => api.signIn(people[who]);

describe('access settings', () => {
  it('are the foreman’s to read and change, from the revision that was read', async () => {
    const { body, headers, status } = await read(tokens.foreman);
    expect([status, body]).toMatchObject([
      200,
      { secondFactorRequired: false, ownersSeeCrew: false },
    ]);
    expect(headers.get('etag')).toBe(`"${String(body.revision)}"`);
    for (const who of ['builder', 'owner'] as const) {
      expect(codeOf(await read(tokens[who]))).toEqual([403, 'access.role']);
      expect(codeOf(await change(tokens[who], { ownersSeeCrew: true }))).toEqual([
        403,
        'access.role',
      ]);
    }
    expect(codeOf(await read(tokens.stranger))).toEqual([404, 'record.missing']);

    const changed = await change(tokens.foreman, { ownersSeeCrew: true });
    expect([changed.status, changed.body]).toMatchObject([
      200,
      { ownersSeeCrew: true, secondFactorRequired: false },
    ]);
    const patch = { ownersSeeCrew: false };
    expect(codeOf(await change(tokens.foreman, patch, {}))).toEqual([428, 'record.unguarded']);
    const stale = { 'if-match': `"${String(body.revision)}"` };
    expect(codeOf(await change(tokens.foreman, patch, stale))).toEqual([412, 'record.stale']);
    expect(codeOf(await change(tokens.foreman, { ownersSeeCrew: 'yes' }))).toEqual([
      422,
      'input.field',
    ]);
    const events = await database.owner.event.findMany({
      where: { yardId: 'small', kind: 'access-settings-changed' },
    });
    expect(events.map(({ payload }) => payload)).toEqual([
      { secondFactorRequired: false, ownersSeeCrew: true },
    ]);
  });

  it('let nobody ask for a second factor who would be shut out by it', async () => {
    const on = { secondFactorRequired: true };
    expect(codeOf(await change(tokens.foreman, on))).toEqual([403, 'access.second-factor']);
    expect((await read(tokens.foreman)).body).toMatchObject({ secondFactorRequired: false });
    const { body } = await read(tokens.foreman);
    const asked = await api.graphql(
      `mutation { updateAccessSettings(yardId: "small", revision: ${String(body.revision)}, input: { secondFactorRequired: true }) { revision } }`,
      {},
      { token: tokens.foreman },
    );
    expect(graphqlCodeOf(asked)).toBe('access.second-factor');
  });
});

describe('a yard that asks for a second factor', () => {
  it('lets in who has shown one, ends the keys of before, and can be told to ask no more', async () => {
    const key = await api.rest('POST', '/yards/small/program-keys', {
      token: tokens.builder,
      body: { name: 'wall screen', scopes: ['read'], password: testPassword },
    });
    const keyToken = z.string().parse(key.body.token);
    const skills = (token: string) => api.rest('GET', '/yards/small/skills', { token });
    expect((await skills(keyToken)).status).toBe(200);

    const foreman = await setUpTotp(api, tokens.foreman);
    const on = await change(foreman.token, { secondFactorRequired: true });
    expect([on.status, on.body]).toMatchObject([
      200,
      { secondFactorRequired: true, ownersSeeCrew: true },
    ]);

    expect((await skills(foreman.token)).status).toBe(200);
    expect(codeOf(await skills(keyToken))).toEqual([401, 'access.sign-in']);
    expect(codeOf(await skills(tokens.builder))).toEqual([403, 'access.second-factor']);
    expect(codeOf(await api.rest('GET', '/yards/small/my-boats', { token: tokens.owner }))).toEqual(
      [403, 'access.second-factor'],
    );
    const asked = await api.graphql(
      '{ skills(yardId: "small") { items { id } } }',
      {},
      { token: tokens.builder },
    );
    expect(graphqlCodeOf(asked)).toBe('access.second-factor');
    // The list of yards holds the same records as the yard itself.
    const yardsOf = async (token: string): Promise<unknown[]> => [
      (await api.rest('GET', '/yards', { token })).body.items,
      (await api.graphql('{ yards { items { id } } }', {}, { token })).body.data,
    ];
    expect(await yardsOf(tokens.builder)).toEqual([[], { yards: { items: [] } }]);
    expect(await yardsOf(foreman.token)).toMatchObject([
      [{ id: 'small' }],
      { yards: { items: [{ id: 'small' }] } },
    ]);
    const me = await api.rest('GET', '/me', { token: tokens.builder });
    expect(me.body.memberships).toMatchObject([{ yardId: 'small' }]);
    // Whoever is no member is told of no yard, and so of no demand.
    expect(codeOf(await skills(tokens.stranger))).toEqual([404, 'record.missing']);

    // Their own account is not the yard's: they can set one up, and are in.
    const builder = await setUpTotp(api, tokens.builder);
    expect((await skills(builder.token)).status).toBe(200);
    const password = await api.rest('POST', '/sessions', {
      body: { email: people.builder, password: 'a long enough password' },
    });
    const entered = await api.rest('POST', '/sessions/second-factor', {
      body: { pending: password.body.pending, code: builder.recoveryCodes[0] },
    });
    expect((await skills(z.string().parse(entered.body.token))).status).toBe(200);

    const off = await change(foreman.token, { secondFactorRequired: false });
    expect(off.status).toBe(200);
    const owner = await again('owner');
    expect((await api.rest('GET', '/yards/small/my-boats', { token: owner })).status).toBe(200);
  });

  it('shuts out a foreman who switches the own one off, until there is one again', async () => {
    const { token, recoveryCodes } = await setUpTotp(api, await again('stranger'));
    const body = { ...smallYard(), id: 'other' };
    expect((await api.rest('POST', '/yards', { token, body })).status).toBe(201);
    const settings = '/yards/other/access-settings';
    const etag = (await api.rest('GET', settings, { token })).headers.get('etag') ?? '';
    const on = await api.rest('PATCH', settings, {
      token,
      headers: { 'if-match': etag },
      body: { secondFactorRequired: true },
    });
    expect(on.status).toBe(200);
    const removed = await api.rest('DELETE', '/second-factor/totp', {
      token,
      body: { password: 'a long enough password', code: recoveryCodes[0] },
    });
    expect(removed.status).toBe(204);
    expect(codeOf(await api.rest('GET', settings, { token }))).toEqual([
      403,
      'access.second-factor',
    ]);
    const fresh = await setUpTotp(api, token);
    expect((await api.rest('GET', settings, { token: fresh.token })).status).toBe(200);
  });
});
