import { createClient } from 'graphql-ws';
import { describe, expect, test, vi } from 'vitest';
import { ruleOf } from '#access/table.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import { rootModule } from '../../apps/api/src/app.module.ts';
import { csrfOf } from '../../apps/api/src/platform/access/csrf.ts';
import { restFace } from '../../apps/api/src/platform/access/face.ts';
import { withDefaults } from '../../apps/api/src/platform/config/defaults.ts';
import { serveDocs } from '../../apps/api/src/platform/http/docs.ts';
import { createApp } from '../../apps/api/src/platform/http/server.ts';
import { type Answer, testPassword } from '../support/api.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';
import { type ServerSent, serverSent } from '../support/streams.ts';

/** What stands before the handlers: proof of a page of ours, and the end of what is under way. */
const { api, database, tokens } = smallYardApi();

const cookieOf = (token: string): string => `curewright_session=${token}`;
const codeOf = ({ status, body }: Answer): unknown[] => [status, body.code];
const skills = '{ skills(yardId: "small") { items { id } } }';

// OWASP CSRF Prevention Cheat Sheet: a token bound to the session, and the headers of Fetch Metadata.
describe('a request by cookie', () => {
  const byCookie = (headers: Record<string, string> = {}, token = tokens.foreman) => ({
    headers: { cookie: cookieOf(token), ...headers },
  });
  const proven = (headers: Record<string, string> = {}) =>
    byCookie({ 'x-csrf-token': csrfOf(tokens.foreman), ...headers });
  const make = (id: string, sending: object): Promise<Answer> =>
    api.rest('POST', '/yards/small/skills', { ...sending, body: { id, name: 'Skill' } });

  test('reads without more', async () => {
    expect((await api.rest('GET', '/yards/small/skills', byCookie())).status).toBe(200);
    const { headers } = byCookie();
    const head = { method: 'HEAD', headers };
    expect((await fetch(`${api.url}/api/v1/yards/small/skills`, head)).status).toBe(200);
    const query = `${api.url}/graphql?query=${encodeURIComponent(skills)}`;
    expect(await (await fetch(query, { headers })).json()).toMatchObject({
      data: { skills: { items: [{ id: 'laminating' }, { id: 'fairing' }] } },
    });
  });

  test('changes nothing without proof, or with another session’s', async () => {
    const forged = [403, 'access.forged'];
    const stolen = byCookie({ 'x-csrf-token': csrfOf(tokens.builder) });
    expect(codeOf(await make('forged', byCookie()))).toEqual(forged);
    expect(codeOf(await make('forged', stolen))).toEqual(forged);
    const path = '/yards/small/skills/laminating';
    const guarded = byCookie({ 'if-match': '"1"' });
    expect(codeOf(await api.rest('DELETE', path, guarded))).toEqual(forged);
    for (const query of [skills, 'mutation { signOut }']) {
      const { body } = await api.graphql(query, {}, byCookie());
      expect(body).toMatchObject({ errors: [{ extensions: { code: 'access.forged' } }] });
    }
    expect(await database.owner.skill.count({ where: { id: 'forged' } })).toBe(0);
    expect((await api.rest('GET', '/me', { token: tokens.foreman })).status).toBe(200);
  });

  test('with proof does what its session may', async () => {
    expect((await make('proven', proven())).status).toBe(201);
    expect((await make('fetched', proven({ 'sec-fetch-site': 'same-origin' }))).status).toBe(201);
    expect((await make('origin', proven({ origin: api.url }))).status).toBe(201);
    expect((await api.graphql(skills, {}, proven())).body.errors).toBeUndefined();
  });

  test('of a page of elsewhere is refused, proof or not, signed in or not', async () => {
    const foreign = [
      { origin: 'https://evil.example' },
      { origin: 'null' },
      { 'sec-fetch-site': 'cross-site' },
      { 'sec-fetch-site': 'same-site' },
    ];
    for (const headers of foreign) {
      const seen = codeOf(await make('forged', proven(headers)));
      expect(seen, JSON.stringify(headers)).toEqual([403, 'access.forged']);
      const body = { email: people.builder, password: testPassword };
      const signIn = await api.rest('POST', '/sessions', { headers, body });
      expect(codeOf(signIn)).toEqual([403, 'access.forged']);
      expect(signIn.body.cure).toMatch(/^Open http:\/\/localhost:\d+ and/);
    }
    const token = { token: tokens.foreman, headers: { origin: 'https://evil.example' } };
    // A page cannot know a token, so whoever sends one means it.
    expect((await make('meant', token)).status).toBe(201);
  });

  test('of an old cookie does not stand in the way of signing in', async () => {
    for (const token of [tokens.owner, 'long over']) {
      const body = { email: people.builder, password: testPassword };
      const { status } = await api.rest('POST', '/sessions', { ...byCookie({}, token), body });
      expect(status).toBe(201);
    }
  });

  test('over a socket brings its proof when it connects', async () => {
    const first = async (connectionParams: Record<string, unknown>): Promise<unknown> => {
      const client = createClient({
        url: `${api.url.replace('http', 'ws')}/graphql`,
        webSocketImpl: withCookie(cookieOf(tokens.builder)),
        connectionParams,
        retryAttempts: 0,
      });
      const query = 'subscription { events(yardId: "small", after: "0") { id } }';
      try {
        for await (const item of client.iterate({ query })) return item;
        return undefined;
      } finally {
        await client.dispose();
      }
    };
    const proof = { 'x-csrf-token': csrfOf(tokens.builder) };
    expect(await first(proof)).toMatchObject({ data: { events: {} } });
    const forged = [{ extensions: { code: 'access.forged' } }];
    await expect(first({})).rejects.toMatchObject(forged);
    const stolen = { 'x-csrf-token': csrfOf(tokens.owner) };
    await expect(first(stolen)).rejects.toMatchObject(forged);
  });
});

function withCookie(cookie: string): unknown {
  return class extends WebSocket {
    constructor(url: string, protocols: string) {
      super(url, { protocols, headers: { cookie } });
    }
  };
}

describe('what is under way', () => {
  const events = (): string => `${api.url}/api/v1/yards/small/events`;
  const builder = { yardId: 'small', id: 'bram' };

  /** A stream that has begun: what it brings up to its end, and when it has brought the first. */
  function streamOf(token: string): {
    begun: Promise<void>;
    all: Promise<ServerSent[]>;
    /** What came so far. */
    got: readonly ServerSent[];
  } {
    const begun = Promise.withResolvers<undefined>();
    const got: ServerSent[] = [];
    const follow = async (): Promise<ServerSent[]> => {
      for await (const event of serverSent(events(), { token, lastEventId: '0' })) {
        got.push(event);
        begun.resolve(undefined);
      }
      return got;
    };
    return { begun: begun.promise, all: follow(), got };
  }

  function subscriptionOf(token: string): { begun: Promise<void>; all: Promise<unknown[]> } {
    const begun = Promise.withResolvers<undefined>();
    const follow = async (): Promise<unknown[]> => {
      const client = createClient({
        url: `${api.url.replace('http', 'ws')}/graphql`,
        connectionParams: { authorization: `Bearer ${token}` },
        retryAttempts: 0,
      });
      const query = 'subscription { events(yardId: "small", after: "0") { id } }';
      const got: unknown[] = [];
      for await (const item of client.iterate({ query })) {
        got.push(item);
        begun.resolve(undefined);
      }
      await client.dispose();
      return got;
    };
    return { begun: begun.promise, all: follow() };
  }

  async function endsBy(
    token: string,
    change: () => Promise<unknown>,
    code: string,
  ): Promise<void> {
    const [stream, subscription] = [streamOf(token), subscriptionOf(token)];
    await Promise.all([stream.begun, subscription.begun]);
    await change();
    const sent = await stream.all;
    expect(sent.at(-1)).toMatchObject({ event: 'refused', data: { code } });
    expect(sent.slice(0, -1).filter(({ event }) => event === 'refused')).toEqual([]);
    expect((await subscription.all).at(-1)).toMatchObject({ errors: [{ extensions: { code } }] });
  }

  test('ends when its session is closed', async () => {
    const token = await api.signIn(people.builder);
    const signOut = () => api.rest('DELETE', '/sessions/current', { token });
    await endsBy(token, signOut, 'access.sign-in');
  });

  test('ends when its session is over, to the moment', async () => {
    const token = await api.signIn(people.builder);
    const expiresAt = new Date(Date.now() + 1_500);
    const expire = () =>
      database.owner.session.update({ where: { tokenHash: hashOf(token) }, data: { expiresAt } });
    await endsBy(token, expire, 'access.sign-in');
    expect(Date.now()).toBeGreaterThanOrEqual(expiresAt.getTime());
  });

  test('ends when the roles change, even to more', async () => {
    const roles = (...held: ('builder' | 'owner')[]) =>
      database.owner.member.update({
        where: { yardId_id: builder },
        data: { roles: held },
      });
    await endsBy(tokens.builder, () => roles('builder', 'owner'), 'access.role');
    await endsBy(tokens.builder, () => roles('owner'), 'access.role');
    await roles('builder');
  });

  test('ends when its yard asks for a second factor that its session has not shown', async () => {
    const demand = (secondFactorRequired: boolean) =>
      database.owner.yard.update({ where: { id: 'small' }, data: { secondFactorRequired } });
    await endsBy(tokens.builder, () => demand(true), 'access.second-factor');
    await demand(false);
  });

  test('ends when its key is revoked', async () => {
    const token = `cwk_${newToken()}`;
    const { id } = await database.owner.programKey.create({
      data: {
        yardId: 'small',
        memberId: 'bram',
        name: 'screen',
        tokenHash: hashOf(token),
        scopes: ['read'],
        expiresAt: new Date(Date.now() + 60_000),
      },
    });
    const revoke = () =>
      database.owner.programKey.update({
        where: { yardId_id: { yardId: 'small', id } },
        data: { revokedAt: new Date() },
      });
    await endsBy(token, revoke, 'access.sign-in');
  });

  test('goes on while others come and go, and is no sign of life', async () => {
    const token = await api.signIn(people.builder);
    const where = { tokenHash: hashOf(token) };
    const stream = streamOf(token);
    await stream.begun;
    const longAgo = new Date(Date.now() - 30 * 60_000);
    await database.owner.session.update({ where, data: { lastSeenAt: longAgo } });
    const other = await api.signIn(people.builder);
    await api.rest('DELETE', '/sessions/current', { token: other });
    // Has the stream's own session looked at once more, by a move of its end.
    const expiresAt = new Date(Date.now() + 3_600_000);
    await database.owner.session.update({ where, data: { expiresAt } });
    const made = { token: tokens.foreman, body: { id: 'heard', name: 'Heard' } };
    expect((await api.rest('POST', '/yards/small/skills', made)).status).toBe(201);
    const after = await database.owner.session.findUniqueOrThrow({ where });
    expect(after.lastSeenAt).toEqual(longAgo);
    // What is told after the end would come too late.
    await vi.waitFor(() => {
      expect(stream.got.map(({ data }) => data.subjectId)).toContain('heard');
    }, 10_000);
    await database.owner.session.delete({ where });
    const kinds = (await stream.all).map(({ event, data }) => [event, data.subjectId]);
    expect(kinds).toContainEqual(['skill-added', 'heard']);
    expect(kinds.at(-1)?.[0]).toBe('refused');
  });
});

test('a yard of others is answered as one that does not exist', async () => {
  const stranger = { token: tokens.stranger };
  const bodies = await Promise.all(
    ['small', 'nowhere'].map(async (yardId) => {
      const rest = await api.rest('GET', `/yards/${yardId}/skills`, stranger);
      const query = `{ skills(yardId: "${yardId}") { items { id } } }`;
      const { body } = await api.graphql(query, {}, stranger);
      return [rest.status, { ...rest.body, instance: '' }, body];
    }),
  );
  expect(bodies[0]).toEqual(bodies[1]);
  expect(bodies[0]).toMatchObject([404, { code: 'record.missing' }, { data: null }]);
});

test('what the server answers beside the table’s rows is documentation and GraphQL itself', async () => {
  const config = withDefaults({ databaseUrl: database.serviceUrl, port: 0 });
  const app = await createApp(rootModule(config), config, []);
  const routes: string[] = [];
  app
    .getHttpAdapter()
    .getInstance()
    .addHook('onRoute', ({ method, url }) => {
      const methods = [method].flat().filter((verb) => verb !== 'HEAD');
      routes.push(...methods.map((verb) => restFace(verb, url)));
    });
  serveDocs(app);
  await app.init();
  await app.close();
  expect(routes.length).toBeGreaterThan(150);
  const others = routes.filter((face) => ruleOf(face) === undefined && !/^GET docs\b/.test(face));
  const open = ['GET /graphql', 'GET openapi.json', 'POST /graphql'];
  expect([...new Set(others)].sort()).toEqual(open);
});
