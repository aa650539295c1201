import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { faultsOf, idsOf } from '../support/api.ts';
import { smallYardApi } from '../support/small-yard-api.ts';
import { smallYard } from '../support/small-yard.ts';
import { yardSchema } from '#planning/yard/yard.ts';

const { api, database, tokens } = smallYardApi();

describe('pages', () => {
  test('lead through a list once, in its order', async () => {
    const mine = { ...smallYard('mine', 'Mine'), people: [], boats: [] };
    await api.rest('POST', '/yards', { token: tokens.stranger, body: mine });
    for (const n of [1, 2, 3, 4, 5]) {
      await api.rest('POST', '/yards/mine/skills', {
        token: tokens.stranger,
        body: { id: `s${String(n)}`, name: 'S' },
      });
    }
    const seen: unknown[] = [];
    let after = '';
    for (let pages = 0; pages < 10; pages += 1) {
      const { status, body } = await api.rest('GET', `/yards/mine/skills?first=3${after}`, {
        token: tokens.stranger,
      });
      expect(status).toBe(200);
      seen.push(...idsOf(body));
      const cursor = z.string().nullable().parse(body.nextCursor);
      if (cursor === null) break;
      after = `&after=${cursor}`;
    }
    expect(seen).toEqual(['laminating', 'fairing', 's1', 's2', 's3', 's4', 's5']);
    const { body } = await api.graphql(
      '{ skills(yardId: "mine", first: 2) { items { id } nextCursor } }',
      undefined,
      {
        token: tokens.stranger,
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
      token: tokens.foreman,
    });
    expect(status).toBe(422);
    expect(faultsOf(body)).toEqual([[path, 'input.field']]);
  });
});

describe('updates', () => {
  test('need the ETag that was read, and only the newest is taken', async () => {
    const path = '/yards/small/spaces/hull';
    const read = await api.rest('GET', path, { token: tokens.foreman });
    const etag = read.headers.get('etag') ?? '';
    expect(etag).toBe(`"${JSON.stringify(read.body.revision)}"`);
    const change = (body: unknown, headers: Record<string, string>) =>
      api.rest('PATCH', path, { token: tokens.foreman, body, headers });
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
    expect((await api.rest('GET', path, { token: tokens.foreman })).body).toEqual(done.body);
  });

  test('keep what was not sent and replace lists whole', async () => {
    const path = '/yards/small/people/bram';
    const before = await api.rest('GET', path, { token: tokens.foreman });
    const abilities = [{ skill: 'fairing', level: 3, speed: 110 }];
    const { status, body } = await api.rest('PATCH', path, {
      token: tokens.foreman,
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
        { token: tokens.foreman },
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
      token: tokens.foreman,
      headers: { 'if-match': '"1"' },
    });
    expect(answer).toMatchObject({ status: 409, body: { code: 'record.in-use' } });
  });

  test('a new version leaves the old one as it was', async () => {
    const old = await api.rest('GET', '/yards/small/procedures/panel', { token: tokens.foreman });
    const { steps, links, choices } = old.body;
    const made = await api.rest('POST', '/yards/small/procedures/panel/versions', {
      token: tokens.foreman,
      body: { steps, links, choices, name: 'Panel, better' },
    });
    expect(made).toMatchObject({ status: 201, body: { version: 2, name: 'Panel, better' } });
    expect(
      (await api.rest('GET', '/yards/small/procedures/panel/versions/1', { token: tokens.builder }))
        .body,
    ).toEqual(old.body);
    const listed = await api.rest('GET', '/yards/small/procedures', { token: tokens.builder });
    expect(listed.body.items).toEqual([made.body]);
  });

  test('a version written from one that is not the newest any more is refused', async () => {
    const now = await api.rest('GET', '/yards/small/procedures/panel', { token: tokens.foreman });
    const { steps, links, choices, version } = now.body;
    const write = (name: string, fromVersion: unknown) =>
      api.rest('POST', '/yards/small/procedures/panel/versions', {
        token: tokens.foreman,
        body: { steps, links, choices, name, fromVersion },
      });
    const first = await write('Panel, of Ines', version);
    expect(first).toMatchObject({ status: 201, body: { version: Number(version) + 1 } });
    const stale = { status: 412, body: { code: 'record.stale' } };
    expect(await write('Panel, of Bram', version)).toMatchObject(stale);
    expect(await write('Panel, of Bram', Number(version) + 2)).toMatchObject(stale);
    const after = await api.rest('GET', '/yards/small/procedures/panel', { token: tokens.foreman });
    expect(after.body).toEqual(first.body);

    const mutation = (fromVersion: number) =>
      api.graphql(
        `mutation ($from: Int!) { createProcedureVersion(yardId: "small", id: "panel", input: {
          name: "Panel, by link", fromVersion: $from, links: []
          steps: [{id: "wipe", name: "Wipe", skill: "fairing", air: CLEAN, effort: {fixed: 10, source: "invented"}, crewMin: 1, crewMax: 1, splittable: false}]
        }) { version name } }`,
        { from: fromVersion },
        { token: tokens.foreman },
      );
    expect((await mutation(Number(version))).body).toMatchObject({
      errors: [{ extensions: { code: 'record.stale' } }],
    });
    expect((await mutation(Number(version) + 1)).body).toEqual({
      data: { createProcedureVersion: { version: Number(version) + 2, name: 'Panel, by link' } },
    });
  });
});

describe('commands', () => {
  const send = (key: string, body: unknown) =>
    api.rest('POST', '/yards/small/tools', {
      token: tokens.foreman,
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

  test('GraphQL mutations too, each field for itself', async () => {
    const mutation =
      'mutation { a: createTool(yardId: "small", input: {id: "a", name: "A", count: 1}) { id } b: createTool(yardId: "small", input: {id: "b", name: "B", count: 1}) { id } }';
    const sending = { token: tokens.foreman, headers: { 'idempotency-key': 'key-4' } };
    const first = await api.graphql(mutation, undefined, sending);
    expect(first.body).toEqual({ data: { a: { id: 'a' }, b: { id: 'b' } } });
    expect((await api.graphql(mutation, undefined, sending)).body).toEqual(first.body);
  });
});

describe('a whole yard', () => {
  test('comes out as it went in', async () => {
    const file = { ...smallYard('copy', 'Copy') };
    expect((await api.rest('POST', '/yards', { token: tokens.foreman, body: file })).status).toBe(
      201,
    );
    const { status, body } = await api.rest('GET', '/yards/copy/export', { token: tokens.foreman });
    expect(status).toBe(200);
    expect(body).toEqual(yardSchema.parse(file));
    expect(
      (await api.rest('POST', '/yards', { token: tokens.foreman, body: file })).body.code,
    ).toBe('record.exists');
  });

  test('with faults is refused with all of them, and nothing of it is kept', async () => {
    const file = smallYard('faulty');
    const people = (file.people ?? []).map((person) => ({
      ...person,
      abilities: [{ skill: 'welding', level: 1 }],
    }));
    const { status, body } = await api.rest('POST', '/yards', {
      token: tokens.foreman,
      body: { ...file, people },
    });
    expect(status).toBe(422);
    expect(faultsOf(body).map(([path]) => path)).toEqual(
      [0, 1, 2].map((i) => `people[${String(i)}].abilities[0].skill`),
    );
    expect(await database.owner.yard.count({ where: { id: 'faulty' } })).toBe(0);
  });

  test('an outdoor table replaces the one before', async () => {
    const table = { from: '2026-12-01T00:00:00Z', celsius: [1, 2, 3], source: 'invented' };
    const put = await api.rest('PUT', '/yards/copy/outdoor', {
      token: tokens.foreman,
      body: table,
    });
    expect(put).toMatchObject({ status: 200, body: table });
    expect(
      (await api.rest('GET', '/yards/copy/export', { token: tokens.foreman })).body.outdoor,
    ).toEqual({ ...table, humidity: [] });
  });
});
