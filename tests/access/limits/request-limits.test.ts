import { randomUUID } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { smallYard } from '../../support/small-yard.ts';
import { smallYardApi } from '../../support/small-yard-api.ts';
import { withClient } from '#persistence/roles.ts';
import { ask, bearer, posted, strictApi } from './ask.ts';
import { subscribe, talk } from './talk.ts';

const { api, database, tokens } = smallYardApi();

describe('requests', () => {
  const perMinute = 6;
  const strict = strictApi(database, { requestsPerMinute: perMinute, trustProxy: 1 });
  const me = (from: string, token?: string) =>
    ask(`${strict.url}/api/v1/me`, {
      headers: { 'x-forwarded-for': from, ...(token === undefined ? {} : bearer(token)) },
    });
  const query = (from: string, text: string) =>
    ask(
      `${strict.url}/graphql`,
      posted({ query: text }, { 'x-forwarded-for': from, ...bearer(tokens.builder) }),
    );

  test('of a session are limited, with when to come again; others of its address are not', async () => {
    for (let n = 0; n < perMinute; n += 1) {
      expect((await me('192.0.2.1', tokens.foreman)).status).toBe(200);
    }
    const refused = await me('192.0.2.1', tokens.foreman);
    expect(refused).toMatchObject({ status: 429, code: 'access.often' });
    expect(Number(refused.headers.get('retry-after'))).toBeGreaterThan(50);
    expect(Number(refused.headers.get('retry-after'))).toBeLessThanOrEqual(60);
    expect((await me('192.0.2.1', tokens.owner)).status).toBe(200);
  });

  test('without a session are limited by address, those for nothing as well', async () => {
    const nothing = (from: string) =>
      ask(`${strict.url}/api/v1/nothing`, { headers: { 'x-forwarded-for': from } });
    for (let n = 0; n < perMinute; n += 1) expect((await nothing('192.0.2.2')).status).toBe(404);
    expect((await nothing('192.0.2.2')).status).toBe(429);
    expect((await nothing('192.0.2.3')).status).toBe(404);
  });

  test('are limited by address whatever tokens are made up', async () => {
    const statuses: number[] = [];
    for (let n = 0; n < 5 * perMinute + 1; n += 1) {
      statuses.push((await me('192.0.2.4', randomUUID())).status);
    }
    expect(statuses.indexOf(429)).toBe(5 * perMinute);
  });

  test('of GraphQL count for each field at the top', async () => {
    const four = '{ a: me { name } b: me { name } c: me { name } d: me { name } }';
    expect((await query('192.0.2.5', four)).status).toBe(200);
    const refused = await query('192.0.2.5', four);
    expect(refused).toMatchObject({ status: 429, code: 'access.often' });
    expect(Number(refused.headers.get('retry-after'))).toBeGreaterThan(50);
  });

  test('over a socket count too', async () => {
    const socket = await talk(strict.url, tokens.stranger);
    const codes: string[] = [];
    for (let n = 0; n < perMinute + 2; n += 1) {
      const id = String(n);
      socket.say(subscribe(id, 'subscription { events(yardId: "small") { id } }'));
      codes.push(JSON.stringify((await socket.reply(id)).payload));
    }
    socket.end();
    expect(codes.map((code) => code.includes('"record.missing"'))).toEqual(
      codes.map((_, n) => n < perMinute),
    );
    expect(codes.map((code) => code.includes('"access.often"'))).toEqual(
      codes.map((_, n) => n >= perMinute),
    );
  });
});

describe('bodies', () => {
  const filler = 'x'.repeat(300 * 1024);

  test('are 256 KiB at most, on REST and GraphQL', async () => {
    const rest = await ask(
      `${api.url}/api/v1/yards/small/skills`,
      posted({ id: 'large', name: filler }, bearer(tokens.foreman)),
    );
    expect(rest).toMatchObject({ status: 413, code: 'input.limit' });
    expect(rest.text).toContain('256 KiB');
    const graphql = await ask(
      `${api.url}/graphql`,
      posted({ query: '{ me { name } }', variables: { filler } }, bearer(tokens.foreman)),
    );
    expect(graphql).toMatchObject({ status: 413, code: 'input.limit' });
  });

  test('but of a whole yard and an outdoor table 4 MiB', async () => {
    const yards = `${api.url}/api/v1/yards`;
    const file = { ...smallYard('large', 'Large'), people: [], boats: [] };
    const outdoor = { from: '2026-12-01T00:00:00Z', celsius: [1, 2, 3], source: 'invented' };
    const padded = (body: unknown, size: number) => JSON.stringify(body).padEnd(size, ' ');
    const sent = (url: string, body: string, method = 'POST') =>
      ask(url, { ...posted(body, bearer(tokens.stranger)), method });
    expect((await sent(yards, padded(file, 3_000_000))).status).toBe(201);
    expect((await sent(yards, padded(file, 4_200_000))).status).toBe(413);
    const table = `${yards}/large/outdoor`;
    expect((await sent(table, padded(outdoor, 3_000_000), 'PUT')).status).toBe(200);
    expect((await sent(table, padded(outdoor, 4_200_000), 'PUT')).status).toBe(413);
  });
});

describe('statements', () => {
  const hasty = strictApi(database, {
    timeouts: { statementMs: 300, lockMs: 10_000, idleMs: 30_000 },
  });
  const impatient = strictApi(database, {
    timeouts: { statementMs: 10_000, lockMs: 300, idleMs: 30_000 },
  });

  test.each([
    ['a statement', () => hasty.url],
    ['a lock', () => impatient.url],
  ])('end, where %s takes too long, with words and without SQL', async (_what, url) => {
    await withClient(database.ownerUrl, async (holder) => {
      await holder.query('BEGIN; LOCK TABLE skill IN ACCESS EXCLUSIVE MODE');
      const path = `${url()}/api/v1/yards/small/skills`;
      const refused = await ask(path, { headers: bearer(tokens.foreman) });
      expect(refused).toMatchObject({ status: 503, code: 'service.unavailable' });
      expect(refused.text).not.toMatch(/statement|lock|SELECT|57014|55P03|prisma/i);
      const graphql = await ask(
        `${url()}/graphql`,
        posted({ query: '{ skills(yardId: "small") { items { id } } }' }, bearer(tokens.foreman)),
      );
      expect(graphql.code).toBe('service.unavailable');
      await holder.query('ROLLBACK');
      expect((await ask(path, { headers: bearer(tokens.foreman) })).status).toBe(200);
    });
  });

  test('that lose their server end with words, and the next finds it again', async () => {
    const path = `${api.url}/api/v1/yards/small/skills`;
    const list = () => ask(path, { headers: bearer(tokens.foreman) });
    await withClient(database.ownerUrl, async (holder) => {
      await holder.query('BEGIN; LOCK TABLE skill IN ACCESS EXCLUSIVE MODE');
      const waiting = list();
      await withClient(database.adminUrl, async (admin) => {
        const ofService = `FROM pg_stat_activity WHERE usename = 'curewright_service'
          AND datname = current_database() AND wait_event_type = 'Lock'`;
        const count = async () => (await admin.query(`SELECT 1 ${ofService}`)).rowCount;
        await expect.poll(count, { timeout: 10_000 }).toBe(1);
        await admin.query(`SELECT pg_terminate_backend(pid) ${ofService}`);
      });
      const refused = await waiting;
      expect(refused).toMatchObject({ status: 503, code: 'service.unavailable' });
      expect(refused.text).not.toMatch(/terminat|57P01|connection|prisma/i);
    });
    expect((await list()).status).toBe(200);
  });
});
