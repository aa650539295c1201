import { beforeAll, describe, expect, test } from 'vitest';
import { type JsonValue, testApi, testPassword } from '../support/api.ts';
import { testDatabase } from '../support/database.ts';
import { smallYard } from '../support/small-yard.ts';
import { yardSchema } from '#planning/yard/yard.ts';

const database = testDatabase();
const api = testApi(database);
let foreman = '';
let builder = '';
let owner = '';
let stranger = '';

const emails = ['ines@yard.test', 'bram@yard.test', 'odile@yard.test', 'stranger@yard.test'];

beforeAll(async () => {
  for (const email of emails) await api.addAccount(email);
  [foreman, builder, owner, stranger] = await Promise.all(emails.map((email) => api.signIn(email)));
  const imported = await api.rest('POST', '/yards', { token: foreman, body: smallYard() });
  expect(imported.status, JSON.stringify(imported.body)).toBe(201);
});

/** Paths and codes of what a problem names. */
const faults = (problem: JsonValue): { path: unknown; code: unknown }[] =>
  (problem.errors as unknown as { path: unknown; code: unknown }[]).map(({ path, code }) => ({
    path,
    code,
  }));

describe('sign-in', () => {
  test('a wrong password and an unknown e-mail are refused alike', async () => {
    const wrong = await api.rest('POST', '/sessions', {
      body: { email: emails[0], password: 'not it' },
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
      body: { email: emails[1], password: testPassword },
    });
    const cookie = answer.headers.get('set-cookie') ?? '';
    expect(cookie).toMatch(/HttpOnly; SameSite=Lax/);
    const token = String(answer.body.token);
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
    expect(text).not.toContain(foreman);
    const account = await database.owner.account.findUniqueOrThrow({
      where: { email: 'ines@yard.test' },
    });
    expect(account.passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
  });
});

describe('roles', () => {
  const boat = { id: 'skua', name: 'Skua' };

  test('a builder cannot create a boat, on either face', async () => {
    const rest = await api.rest('POST', '/yards/small/boats', { token: builder, body: boat });
    expect(rest).toMatchObject({ status: 403, body: { code: 'access.role' } });
    const { body } = await api.graphql(
      'mutation ($input: BoatInput!) { createBoat(yardId: "small", input: $input) { id } }',
      { input: boat },
      { token: builder },
    );
    expect(body).toMatchObject({ data: null, errors: [{ extensions: { code: 'access.role' } }] });
    expect(await database.owner.boat.count({ where: { id: 'skua' } })).toBe(0);
  });

  test('an owner sees the own boats only', async () => {
    const made = await api.rest('POST', '/yards/small/boats', {
      token: foreman,
      body: { id: 'tern', name: 'Tern' },
    });
    expect(made.status).toBe(201);
    const all = await api.rest('GET', '/yards/small/boats', { token: foreman });
    const own = await api.rest('GET', '/yards/small/boats', { token: owner });
    expect(idsOf(all.body)).toEqual(['petrel', 'tern']);
    expect(idsOf(own.body)).toEqual(['petrel']);
    expect((await api.rest('GET', '/yards/small/boats/tern', { token: owner })).status).toBe(404);
    expect((await api.rest('GET', '/yards/small/people', { token: owner })).status).toBe(403);
  });

  test('another yard is not found, whether it exists or not', async () => {
    const other = await api.rest('GET', '/yards/small/boats', { token: stranger });
    const absent = await api.rest('GET', '/yards/nowhere/boats', { token: stranger });
    expect(other).toMatchObject({ status: 404, body: { code: 'record.missing' } });
    expect({ ...absent.body, instance: '' }).toEqual({ ...other.body, instance: '' });
    const { body } = await api.graphql('{ yard(yardId: "small") { id } }', undefined, {
      token: stranger,
    });
    expect(body).toMatchObject({ errors: [{ extensions: { code: 'record.missing' } }] });
  });

  test('two yards in one query are judged each by itself', async () => {
    const mine = { ...smallYard('mine', 'Mine'), people: [], boats: [] };
    expect((await api.rest('POST', '/yards', { token: stranger, body: mine })).status).toBe(201);
    const { body } = await api.graphql(
      '{ a: yards { items { id } } b: spaces(yardId: "mine") { items { id } } }',
      undefined,
      { token: stranger },
    );
    expect(body, JSON.stringify(body)).toMatchObject({
      data: { a: { items: [{ id: 'mine' }] }, b: { items: [{ id: 'bay' }, {}] } },
    });
    const mixed = await api.graphql(
      'mutation { a: createSkill(yardId: "mine", input: {id: "a", name: "A"}) { id } b: createSkill(yardId: "small", input: {id: "b", name: "B"}) { id } }',
      undefined,
      { token: stranger },
    );
    expect(mixed.body).toMatchObject({
      errors: [{ path: ['b'], extensions: { code: 'record.missing' } }],
    });
    expect(await database.owner.skill.count({ where: { yardId: 'small', id: 'b' } })).toBe(0);
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
      token: foreman,
      body: bad,
    });
    expect(status).toBe(422);
    expect(body).toMatchObject({
      type: '/problems/input.field',
      title: 'A field has a value it cannot have',
      status: 422,
      code: 'input.field',
    });
    expect(faults(body)).toEqual(
      ['id', 'name', 'climate.setPoints', 'room', 'dustReaches', 'settlingMinutes'].map((path) => ({
        path,
        code: 'input.field',
      })),
    );
    expect(body.errors).toContainEqual(
      expect.objectContaining({ path: 'id', value: 'Bad Id', cure: expect.any(String) }),
    );
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
      { token: foreman },
    );
    expect(body).toMatchObject({
      data: null,
      errors: [
        {
          path: ['createSpace'],
          extensions: {
            code: 'input.field',
            cure: expect.any(String),
            faults: [{ path: 'climate.lagHours', value: -1 }],
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
      token: foreman,
      body: person,
    });
    expect(status).toBe(422);
    expect(faults(body)).toEqual([{ path: 'abilities[0].skill', code: 'yard.reference' }]);
    const shifts = [
      { weekday: 1, from: '07:00', to: '12:00' },
      { weekday: 1, from: '11:00', to: '15:00' },
    ];
    const overlap = await api.rest('POST', '/yards/small/people', {
      token: foreman,
      body: { ...person, abilities: [], shifts },
    });
    expect(overlap.body.code).toBe('yard.shifts-overlap');
  });

  test('unreadable JSON, an unknown address and a query that does not fit are problems too', async () => {
    const json = await api.rest('POST', '/yards/small/skills', { token: foreman, body: '{"id":' });
    expect(json).toMatchObject({ status: 400, body: { code: 'input.malformed' } });
    expect(await api.rest('GET', '/nothing-here')).toMatchObject({
      status: 404,
      body: { code: 'record.missing' },
    });
    const { body } = await api.graphql('{ nothingHere }');
    expect(body).toMatchObject({ errors: [{ extensions: { code: 'input.malformed' } }] });
  });
});

const idsOf = (page: JsonValue): unknown[] =>
  (page.items as unknown as { id: unknown }[]).map(({ id }) => id);

describe('pages', () => {
  test('lead through a list once, in its order', async () => {
    for (const n of [1, 2, 3, 4, 5]) {
      await api.rest('POST', '/yards/mine/skills', {
        token: stranger,
        body: { id: `s${String(n)}`, name: 'S' },
      });
    }
    const seen: unknown[] = [];
    let after = '';
    for (let pages = 0; pages < 10; pages += 1) {
      const { status, body } = await api.rest('GET', `/yards/mine/skills?first=3${after}`, {
        token: stranger,
      });
      expect(status).toBe(200);
      seen.push(...idsOf(body));
      const cursor: unknown = body.nextCursor;
      if (cursor === null) break;
      after = `&after=${String(cursor)}`;
    }
    expect(seen).toEqual(['laminating', 'fairing', 'a', 's1', 's2', 's3', 's4', 's5']);
    const { body } = await api.graphql(
      '{ skills(yardId: "mine", first: 2) { items { id } nextCursor } }',
      undefined,
      {
        token: stranger,
      },
    );
    expect(body).toMatchObject({
      data: { skills: { items: [{ id: 'laminating' }, { id: 'fairing' }] } },
    });
  });

  test.each([
    ['first=0', 'first'],
    ['first=1000', 'first'],
    ['after=nonsense', 'after'],
    ['page=2', 'page'],
  ])('refuse ?%s', async (query, path) => {
    const { status, body } = await api.rest('GET', `/yards/small/skills?${query}`, {
      token: foreman,
    });
    expect(status).toBe(422);
    expect(faults(body)).toEqual([{ path, code: 'input.field' }]);
  });
});

describe('updates', () => {
  test('need the ETag that was read, and only the newest is taken', async () => {
    const path = '/yards/small/spaces/hull';
    const read = await api.rest('GET', path, { token: foreman });
    const etag = read.headers.get('etag') ?? '';
    expect(etag).toBe(`"${String(read.body.revision)}"`);
    const change = (body: unknown, headers: Record<string, string>) =>
      api.rest('PATCH', path, { token: foreman, body, headers });
    expect(await change({ room: 4 }, {})).toMatchObject({
      status: 428,
      body: { code: 'record.unguarded' },
    });
    const done = await change({ room: 4 }, { 'if-match': etag });
    expect(done).toMatchObject({
      status: 200,
      body: { room: 4, name: 'Open hull', climate: { kind: 'outdoors' } },
    });
    expect(done.headers.get('etag')).not.toBe(etag);
    expect(await change({ room: 5 }, { 'if-match': etag })).toMatchObject({
      status: 412,
      body: { code: 'record.stale' },
    });
    expect((await api.rest('GET', path, { token: foreman })).body).toEqual(done.body);
  });

  test('keep what was not sent and replace lists whole', async () => {
    const path = '/yards/small/people/bram';
    const before = await api.rest('GET', path, { token: foreman });
    const abilities = [{ skill: 'fairing', level: 3, speed: 110 }];
    const { status, body } = await api.rest('PATCH', path, {
      token: foreman,
      headers: { 'if-match': before.headers.get('etag') ?? '' },
      body: { abilities },
    });
    expect(status).toBe(200);
    expect(body).toEqual({ ...before.body, abilities, revision: body.revision });
    expect(Number(body.revision)).toBeGreaterThan(Number(before.body.revision));
  });

  test('by GraphQL name the revision', async () => {
    const update = (revision: number) =>
      api.graphql(
        'mutation ($r: Int!) { updateMaterial(yardId: "small", id: "epoxy", revision: $r, input: {cautions: ["Gloves."]}) { cautions belowMinimum milestones { milestone } revision } }',
        { r: revision },
        { token: foreman },
      );
    const done = await update(1);
    expect(done.body).toMatchObject({
      data: {
        updateMaterial: {
          cautions: ['Gloves.'],
          belowMinimum: 'STALLS',
          milestones: { 0: { milestone: 'POT_LIFE' }, length: 6 },
        },
      },
    });
    expect((await update(1)).body).toMatchObject({
      errors: [{ extensions: { code: 'record.stale' } }],
    });
  });

  test('what is in use is not removed', async () => {
    const answer = await api.rest('DELETE', '/yards/small/skills/laminating', {
      token: foreman,
      headers: { 'if-match': '"1"' },
    });
    expect(answer).toMatchObject({ status: 409, body: { code: 'record.in-use' } });
  });

  test('a new version leaves the old one as it was', async () => {
    const old = await api.rest('GET', '/yards/small/procedures/panel', { token: foreman });
    const { id: _id, version: _version, ...rest } = old.body;
    const made = await api.rest('POST', '/yards/small/procedures/panel/versions', {
      token: foreman,
      body: { ...rest, name: 'Panel, better' },
    });
    expect(made).toMatchObject({ status: 201, body: { version: 2, name: 'Panel, better' } });
    expect(
      (await api.rest('GET', '/yards/small/procedures/panel/versions/1', { token: builder })).body,
    ).toEqual(old.body);
    const listed = await api.rest('GET', '/yards/small/procedures', { token: builder });
    expect(listed.body.items).toEqual([made.body]);
  });
});

describe('commands', () => {
  const send = (key: string, body: unknown) =>
    api.rest('POST', '/yards/small/tools', {
      token: foreman,
      body,
      headers: { 'idempotency-key': key },
    });

  test('with one key are done once and answered alike', async () => {
    const tool = { id: 'pump', name: 'Vacuum pump', count: 1 };
    const first = await send('key-1', tool);
    const again = await send('key-1', { count: 1, name: 'Vacuum pump', id: 'pump' });
    expect(first.status).toBe(201);
    expect(again).toMatchObject({ status: 201, body: first.body });
    expect(again.headers.get('etag')).toBe(first.headers.get('etag'));
    expect(await database.owner.event.count({ where: { yardId: 'small', subject: 'tool' } })).toBe(
      1,
    );
    expect(await send('key-1', { ...tool, count: 2 })).toMatchObject({
      status: 409,
      body: { code: 'command.repeated' },
    });
  });

  test('that were refused may be sent again', async () => {
    const taken = await send('key-2', { id: 'pump', name: 'Another', count: 1 });
    expect(taken).toMatchObject({ status: 409, body: { code: 'record.exists' } });
    expect((await send('key-2', { id: 'jig', name: 'Jig', count: 1 })).status).toBe(201);
  });

  test('sent ten times at once are done once', async () => {
    const answers = await Promise.all(
      Array.from({ length: 10 }, () => send('key-3', { id: 'lamp', name: 'Lamp', count: 1 })),
    );
    expect(new Set(answers.map(({ status }) => status))).toEqual(
      answers.some(({ status }) => status === 409) ? new Set([201, 409]) : new Set([201]),
    );
    for (const { status, body } of answers)
      expect(status === 201 ? body.id : body.code).toBe(
        status === 201 ? 'lamp' : 'command.repeated',
      );
    expect(
      await database.owner.event.count({ where: { yardId: 'small', subjectId: 'lamp' } }),
    ).toBe(1);
  });

  test('GraphQL mutations too, each field for itself', async () => {
    const mutation =
      'mutation { a: createTool(yardId: "small", input: {id: "a", name: "A", count: 1}) { id } b: createTool(yardId: "small", input: {id: "b", name: "B", count: 1}) { id } }';
    const sending = { token: foreman, headers: { 'idempotency-key': 'key-4' } };
    const first = await api.graphql(mutation, undefined, sending);
    expect(first.body).toEqual({ data: { a: { id: 'a' }, b: { id: 'b' } } });
    expect((await api.graphql(mutation, undefined, sending)).body).toEqual(first.body);
  });
});

describe('boats and their work', () => {
  const tasks = () =>
    database.owner.task.findMany({
      where: { yardId: 'small', partId: 'hatch' },
      orderBy: { position: 'asc' },
    });

  test('an imported part has its tasks, sized by it', async () => {
    expect((await tasks()).map(({ id, workMinutes }) => [id, workMinutes])).toEqual([
      ['hatch-panel.lay-up', 30 + 2 * 40],
      ['hatch-panel.fair', 15 + 2 * 30],
    ]);
  });

  test('a new size resizes what nobody has begun, by the version it was made from', async () => {
    await database.owner.task.update({
      where: { yardId_id: { yardId: 'small', id: 'hatch-panel.lay-up' } },
      data: {
        state: 'working',
        startedAt: new Date('2026-11-30T08:00:00Z'),
        finishedAt: new Date('2026-11-30T10:00:00Z'),
      },
    });
    const part = await api.rest('GET', '/yards/small/parts/hatch', { token: foreman });
    const { status, body } = await api.rest('PATCH', '/yards/small/parts/hatch', {
      token: foreman,
      headers: { 'if-match': part.headers.get('etag') ?? '' },
      body: { areaM2: 5, space: 'hull' },
    });
    expect({ status, body }).toMatchObject({
      status: 200,
      body: { areaM2: 5, space: 'hull', jobs: [{ procedureVersion: 1 }] },
    });
    expect((await tasks()).map((task) => [task.stepId, task.workMinutes, task.spaceId])).toEqual([
      ['lay-up', 30 + 2 * 40, 'bay'],
      ['fair', 15 + 5 * 30, 'hull'],
    ]);
    const event = await database.owner.event.findFirst({
      where: { yardId: 'small', kind: 'part-changed' },
    });
    expect(event).toMatchObject({
      subjectId: 'hatch',
      byMemberId: 'ines',
      payload: { resizedTasks: 1 },
    });
  });

  test('a job makes its tasks and takes them away again; begun work stays', async () => {
    const part = { id: 'locker', name: 'Cockpit locker', space: 'bay', areaM2: 1 };
    const { body } = await api.graphql(
      'mutation ($p: PartInput!, $j: JobInput!) { createPart(yardId: "small", refitId: "petrel-winter", input: $p) { id jobs { id } } addJob(yardId: "small", partId: "locker", input: $j) { id procedureVersion } }',
      { p: part, j: { id: 'locker-panel', procedure: 'panel', after: ['hatch-panel'] } },
      { token: foreman },
    );
    expect(body).toEqual({
      data: {
        createPart: { id: 'locker', jobs: [] },
        addJob: { id: 'locker-panel', procedureVersion: 2 },
      },
    });
    const made = { where: { yardId: 'small', jobId: 'locker-panel' } };
    expect(await database.owner.task.count(made)).toBe(2);
    expect(
      await database.owner.taskLink.count({
        where: { yardId: 'small', toTaskId: 'locker-panel.lay-up' },
      }),
    ).toBe(1);
    expect(
      (await api.rest('DELETE', '/yards/small/jobs/locker-panel', { token: foreman })).status,
    ).toBe(204);
    expect(await database.owner.task.count(made)).toBe(0);
    expect(
      await api.rest('DELETE', '/yards/small/jobs/hatch-panel', { token: foreman }),
    ).toMatchObject({
      status: 409,
      body: { code: 'record.in-use' },
    });
    expect((await tasks()).length).toBe(2);
  });

  test('a job that names what is not there is refused by its path', async () => {
    const { body } = await api.rest('POST', '/yards/small/parts/hatch/jobs', {
      token: foreman,
      body: { id: 'nope', procedure: 'no-such' },
    });
    expect(faults(body)).toEqual([{ path: 'procedure', code: 'yard.reference' }]);
  });

  test('a promise before the release is refused', async () => {
    const { status, body } = await api.rest('POST', '/yards/small/boats/petrel/refits', {
      token: foreman,
      body: {
        id: 'early',
        name: 'Early',
        release: '2026-12-10T07:00:00Z',
        promised: '2026-12-01T07:00:00Z',
      },
    });
    expect({ status, code: body.code }).toEqual({ status: 422, code: 'yard.promise' });
  });

  test('GraphQL gives a boat with everything in it', async () => {
    const { body } = await api.graphql(
      '{ boat(yardId: "small", id: "petrel") { name refits { promised parts { id areaM2 jobs { procedure } } } } }',
      undefined,
      { token: owner },
    );
    expect(body, JSON.stringify(body)).toMatchObject({
      data: {
        boat: {
          name: 'Petrel',
          refits: [
            {
              promised: '2026-12-18T16:00:00Z',
              parts: { 0: { id: 'hatch', areaM2: 5, jobs: [{ procedure: 'panel' }] } },
            },
          ],
        },
      },
    });
  });
});

describe('a whole yard', () => {
  test('comes out as it went in', async () => {
    const file = { ...smallYard('copy', 'Copy') };
    expect((await api.rest('POST', '/yards', { token: foreman, body: file })).status).toBe(201);
    const { status, body } = await api.rest('GET', '/yards/copy/export', { token: foreman });
    expect(status).toBe(200);
    expect(body).toEqual(yardSchema.parse(file));
    expect((await api.rest('POST', '/yards', { token: foreman, body: file })).body.code).toBe(
      'record.exists',
    );
  });

  test('with faults is refused with all of them, and nothing of it is kept', async () => {
    const file = smallYard('faulty');
    const people = (file.people ?? []).map((person) => ({
      ...person,
      abilities: [{ skill: 'welding', level: 1 }],
    }));
    const { status, body } = await api.rest('POST', '/yards', {
      token: foreman,
      body: { ...file, people },
    });
    expect(status).toBe(422);
    expect(faults(body).map(({ path }) => path)).toEqual(
      [0, 1, 2].map((i) => `people[${String(i)}].abilities[0].skill`),
    );
    expect(await database.owner.yard.count({ where: { id: 'faulty' } })).toBe(0);
  });

  test('an outdoor table replaces the one before', async () => {
    const table = { from: '2026-12-01T00:00:00Z', celsius: [1, 2, 3], source: 'invented' };
    const put = await api.rest('PUT', '/yards/copy/outdoor', { token: foreman, body: table });
    expect(put).toMatchObject({ status: 200, body: table });
    expect((await api.rest('GET', '/yards/copy/export', { token: foreman })).body.outdoor).toEqual(
      table,
    );
  });
});
