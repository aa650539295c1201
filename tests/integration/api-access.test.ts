import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { faultsOf, idsOf, testPassword } from '../support/api.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';
import { smallYard } from '../support/small-yard.ts';

const { api, database, tokens } = smallYardApi();

describe('sign-in', () => {
  test('a wrong password and an unknown e-mail are refused alike', async () => {
    const wrong = await api.rest('POST', '/sessions', {
      body: { email: people.foreman, password: 'not it' },
    });
    const nobody = await api.rest('POST', '/sessions', {
      body: { email: 'nobody@yard.test', password: testPassword },
    });
    expect(wrong).toMatchObject({ status: 401, body: { code: 'access.credentials', status: 401 } });
    expect({ ...nobody.body, instance: '' }).toEqual({ ...wrong.body, instance: '' });
    expect(wrong.headers.get('content-type')).toContain('application/problem+json');
  });

  test('the token opens /me by header and by cookie, until it is given back', async () => {
    const answer = await api.rest('POST', '/sessions', {
      body: { email: people.builder, password: testPassword },
    });
    const cookie = answer.headers.get('set-cookie') ?? '';
    expect(cookie).toMatch(/HttpOnly; SameSite=Lax/);
    const token = z.string().parse(answer.body.token);
    const byCookie = { headers: { cookie: cookie.split(';')[0] } };
    const me = {
      email: 'bram@yard.test',
      memberships: [{ yardId: 'small', memberId: 'bram', roles: ['builder'] }],
    };
    expect((await api.rest('GET', '/me', { token })).body).toMatchObject(me);
    expect((await api.rest('GET', '/me', byCookie)).body).toMatchObject(me);
    expect((await api.rest('DELETE', '/sessions/current', { token })).status).toBe(204);
    expect((await api.rest('GET', '/me', { token })).body.code).toBe('access.sign-in');
    expect((await api.rest('GET', '/me', byCookie)).status).toBe(401);
  });

  test('only the hash of the token is stored, and argon2id of the password', async () => {
    const rows = await database.owner.session.findMany();
    const text = JSON.stringify(
      rows.map(({ tokenHash }) => Buffer.from(tokenHash).toString('base64url')),
    );
    expect(rows.length).toBeGreaterThan(0);
    expect(text).not.toContain(tokens.foreman);
    const account = await database.owner.account.findUniqueOrThrow({
      where: { email: 'ines@yard.test' },
    });
    expect(account.passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
  });
});

describe('roles', () => {
  const boat = { id: 'skua', name: 'Skua' };

  test('a builder cannot create a boat, on either face', async () => {
    const rest = await api.rest('POST', '/yards/small/boats', {
      token: tokens.builder,
      body: boat,
    });
    expect(rest).toMatchObject({ status: 403, body: { code: 'access.role' } });
    const { body } = await api.graphql(
      'mutation ($input: BoatInput!) { createBoat(yardId: "small", input: $input) { id } }',
      { input: boat },
      { token: tokens.builder },
    );
    expect(body).toMatchObject({ data: null, errors: [{ extensions: { code: 'access.role' } }] });
    expect(await database.owner.boat.count({ where: { id: 'skua' } })).toBe(0);
  });

  test('an owner sees the own boats only', async () => {
    const made = await api.rest('POST', '/yards/small/boats', {
      token: tokens.foreman,
      body: { id: 'tern', name: 'Tern' },
    });
    expect(made.status).toBe(201);
    const all = await api.rest('GET', '/yards/small/boats', { token: tokens.foreman });
    const own = await api.rest('GET', '/yards/small/boats', { token: tokens.owner });
    expect(idsOf(all.body)).toEqual(['petrel', 'tern']);
    expect(idsOf(own.body)).toEqual(['petrel']);
    expect((await api.rest('GET', '/yards/small/boats/tern', { token: tokens.owner })).status).toBe(
      404,
    );
    expect((await api.rest('GET', '/yards/small/people', { token: tokens.owner })).status).toBe(
      403,
    );
  });

  test('another yard is not found, whether it exists or not', async () => {
    const other = await api.rest('GET', '/yards/small/boats', { token: tokens.stranger });
    const absent = await api.rest('GET', '/yards/nowhere/boats', { token: tokens.stranger });
    expect(other).toMatchObject({ status: 404, body: { code: 'record.missing' } });
    expect({ ...absent.body, instance: '' }).toEqual({ ...other.body, instance: '' });
    const { body } = await api.graphql('{ yard(yardId: "small") { id } }', undefined, {
      token: tokens.stranger,
    });
    expect(body).toMatchObject({ errors: [{ extensions: { code: 'record.missing' } }] });
  });

  test('two yards in one query are judged each by itself', async () => {
    const mine = { ...smallYard('mine', 'Mine'), people: [], boats: [] };
    expect((await api.rest('POST', '/yards', { token: tokens.stranger, body: mine })).status).toBe(
      201,
    );
    const { body } = await api.graphql(
      '{ a: yards { items { id } } b: spaces(yardId: "mine") { items { id } } }',
      undefined,
      { token: tokens.stranger },
    );
    expect(body, JSON.stringify(body)).toMatchObject({
      data: { a: { items: [{ id: 'mine' }] }, b: { items: [{ id: 'bay' }, {}] } },
    });
    const mixed = await api.graphql(
      'mutation { a: createSkill(yardId: "mine", input: {id: "a", name: "A"}) { id } b: createSkill(yardId: "small", input: {id: "b", name: "B"}) { id } }',
      undefined,
      { token: tokens.stranger },
    );
    expect(mixed.body).toMatchObject({
      errors: [{ path: ['b'], extensions: { code: 'record.missing' } }],
    });
    expect(await database.owner.skill.count({ where: { yardId: 'small', id: 'b' } })).toBe(0);
  });

  test('a yard keeps a foreman who can sign in', async () => {
    const path = '/yards/small/people/ines';
    const { headers } = await api.rest('GET', path, { token: tokens.foreman });
    const sending = { token: tokens.foreman, headers: { 'if-match': headers.get('etag') ?? '' } };
    const patch = { ...sending, body: { roles: ['builder'] } };
    const code = 'record.in-use';
    expect(await api.rest('PATCH', path, patch)).toMatchObject({ status: 409, body: { code } });
    expect(await api.rest('DELETE', path, sending)).toMatchObject({ status: 409, body: { code } });
    expect((await api.rest('GET', path, { token: tokens.foreman })).body.roles).toEqual([
      'foreman',
    ]);
  });

  test('nobody without a session', async () => {
    const answer = await api.rest('GET', '/yards/small/boats');
    expect(answer).toMatchObject({ status: 401, body: { code: 'access.sign-in' } });
    expect(answer.headers.get('www-authenticate')).toBe('Bearer');
  });
});

describe('bad input', () => {
  const bad = { id: 'Bad Id', name: '', climate: { kind: 'heated', setPoints: [] }, room: 0.5 };

  test('REST names every field with its value and cure', async () => {
    const { status, body } = await api.rest('POST', '/yards/small/spaces', {
      token: tokens.foreman,
      body: bad,
    });
    expect(status).toBe(422);
    expect(body).toMatchObject({
      type: '/problems/input.field',
      title: 'A field has a value it cannot have',
      status: 422,
      code: 'input.field',
    });
    const paths = ['id', 'name', 'climate.setPoints', 'room', 'dustReaches', 'settlingMinutes'];
    expect(faultsOf(body)).toEqual(paths.map((path) => [path, 'input.field']));
    const cure = 'Correct it: use lower-case letters, digits, dot, dash, underscore.';
    expect(body.errors).toMatchObject({ 0: { path: 'id', value: 'Bad Id', cure } });
  });

  test('GraphQL says the same in its extensions', async () => {
    const { body } = await api.graphql(
      'mutation ($input: SpaceInput!) { createSpace(yardId: "small", input: $input) { id } }',
      {
        input: {
          id: 'loft',
          name: 'Loft',
          climate: { kind: 'OUTDOORS', lagHours: -1 },
          room: 1,
          dustReaches: [],
          settlingMinutes: 5,
        },
      },
      { token: tokens.foreman },
    );
    expect(body).toMatchObject({
      data: null,
      errors: [
        {
          path: ['createSpace'],
          extensions: {
            code: 'input.field',
            cure: 'Give at least 0.',
            faults: [{ path: 'climate.lagHours', value: -1, cure: 'Give at least 0.' }],
          },
        },
      ],
    });
  });

  test('what makes no sense in the yard is told by its path in what was sent', async () => {
    const person = {
      id: 'cleo',
      name: 'Cleo',
      roles: ['builder'],
      abilities: [{ skill: 'welding', level: 2 }],
    };
    const { status, body } = await api.rest('POST', '/yards/small/people', {
      token: tokens.foreman,
      body: person,
    });
    expect(status).toBe(422);
    expect(faultsOf(body)).toEqual([['abilities[0].skill', 'yard.reference']]);
    const shifts = [
      { weekday: 1, from: '07:00', to: '12:00' },
      { weekday: 1, from: '11:00', to: '15:00' },
    ];
    const overlap = await api.rest('POST', '/yards/small/people', {
      token: tokens.foreman,
      body: { ...person, abilities: [], shifts },
    });
    expect(overlap.body.code).toBe('yard.shifts-overlap');
  });

  test('unreadable JSON, an unknown address and a query that does not fit are problems too', async () => {
    const json = await api.rest('POST', '/yards/small/skills', {
      token: tokens.foreman,
      body: '{"id":',
    });
    expect(json).toMatchObject({ status: 400, body: { code: 'input.malformed' } });
    expect(await api.rest('GET', '/nothing-here')).toMatchObject({
      status: 404,
      body: { code: 'record.missing' },
    });
    const { body } = await api.graphql('{ nothingHere }');
    expect(body).toMatchObject({ errors: [{ extensions: { code: 'input.malformed' } }] });
  });

  test('an empty body is no body, of whatever type it says it is', async () => {
    const sending = { token: tokens.foreman, body: ' ' };
    const missing = await api.rest('POST', '/yards/small/skills', sending);
    expect(missing).toMatchObject({ status: 422, body: { code: 'input.field' } });
    expect(faultsOf(missing.body)).toEqual([
      ['id', 'input.field'],
      ['name', 'input.field'],
    ]);
    for (const body of ['', undefined, '{}']) {
      const run = await api.rest('POST', '/yards/small/plan-runs', { ...sending, body });
      expect(run).toMatchObject({ status: 202, body: { seed: 0 } });
      const path = `/yards/small/plan-runs/${String(run.body.id)}/stop`;
      expect((await api.rest('POST', path, { ...sending, body })).status).toBe(202);
    }
    const nothing = await api.rest('POST', '/yards/small/plan-runs', { ...sending, body: 'null' });
    expect(nothing).toMatchObject({ status: 422, body: { code: 'input.field' } });
    const query = await fetch(`${api.url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
    });
    expect(await query.json()).toMatchObject({
      errors: [{ extensions: { code: 'input.malformed' } }],
    });
  });

  test('what the database cannot hold is no fault of the service', async () => {
    const body = { id: 'nul', name: 'a\u0000b' };
    const nul = await api.rest('POST', '/yards/small/skills', { token: tokens.foreman, body });
    expect(nul).toMatchObject({ status: 422, body: { code: 'input.field' } });
    expect(faultsOf(nul.body)).toEqual([['name', 'input.field']]);
    const path = '/yards/small/procedures/panel/versions/99999999999';
    expect((await api.rest('GET', path, { token: tokens.foreman })).status).toBe(422);
    const inPath = await api.rest('GET', '/yards/small/skills/%00', { token: tokens.foreman });
    expect(inPath).toMatchObject({ status: 422, body: { code: 'input.field' } });
  });
});
