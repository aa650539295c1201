import { once } from 'node:events';
import { request } from 'node:http';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { type Client, createClient } from 'graphql-ws';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { row } from '#access/rule.ts';
import { createApp } from '../../apps/api/src/platform/http/server.ts';
import { PlatformModule } from '../../apps/api/src/platform/platform.module.ts';
import {
  OpenModule,
  ProbeModule,
  probeTable,
  slow,
} from '../../apps/api/src/platform/testing/probe.ts';
import { startApi } from '../../apps/api/src/main.ts';
import { withDefaults } from '../../apps/api/src/platform/config/defaults.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';

const { api, database, tokens } = smallYardApi();

const config = () => withDefaults({ databaseUrl: database.serviceUrl, port: 0 });

function moduleWith(module: typeof ProbeModule) {
  return { module, imports: [PlatformModule.with(config(), probeTable)] };
}

describe('the platform', () => {
  let app: NestFastifyApplication;
  let url = '';
  beforeAll(async () => {
    app = await createApp(moduleWith(ProbeModule), config(), []);
    await app.listen(0, '127.0.0.1');
    url = await app.getUrl();
  });
  afterAll(() => app.close());

  test('tells nothing of an unforeseen fault but an id', async () => {
    const rest = await fetch(`${url}/api/v1/probe/fault`);
    const graphql = await fetch(`${url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query: '{ fault }' }),
    });
    expect(rest.status).toBe(500);
    for (const text of [await rest.text(), await graphql.text()]) {
      expect(text).toMatch(/service\.fault/);
      expect(text).toMatch(/logged as [0-9a-f-]{36}/);
      expect(text).not.toMatch(/hunter2|at .*\.ts/);
    }
  });

  const connect = (connectionParams: Record<string, unknown>): Client =>
    createClient({
      url: `${url.replace('http', 'ws')}/graphql`,
      connectionParams,
      retryAttempts: 0,
    });

  async function collect(client: Client, yardId: string): Promise<unknown[]> {
    const seen: unknown[] = [];
    const query = `subscription { who(yardId: "${yardId}", times: 2) }`;
    for await (const item of client.iterate({ query })) seen.push(item);
    await client.dispose();
    return seen;
  }

  test('gives a subscription its viewer', async () => {
    const seen = await collect(connect({ authorization: `Bearer ${tokens.foreman}` }), 'small');
    expect(seen).toEqual([{ data: { who: 'ines 0' } }, { data: { who: 'ines 1' } }]);
  });

  test.each([
    ['of a builder', () => tokens.builder, 'access.role'],
    ['of a stranger', () => tokens.stranger, 'record.missing'],
    ['without a session', () => 'no such token', 'access.sign-in'],
  ])('refuses a subscription %s', async (_who, token, code) => {
    const client = connect({ authorization: `Bearer ${token()}` });
    await expect(collect(client, 'small')).rejects.toMatchObject([{ extensions: { code } }]);
  });

  test('asks the table for a field that has a resolver of its own', async () => {
    const ask = async (token: string): Promise<unknown> => {
      const answer = await fetch(`${url}/graphql`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', authorization: `Bearer ${token}` },
        body: JSON.stringify({ query: '{ mine: probe(yardId: "small") { name costs } }' }),
      });
      return answer.json();
    };
    expect(await ask(tokens.foreman)).toEqual({
      data: { mine: { name: 'ines', costs: 'known to ines' } },
    });
    expect(await ask(tokens.builder)).toMatchObject({
      data: null,
      errors: [{ path: ['mine', 'costs'], extensions: { code: 'access.role' } }],
    });
  });

  test('refuses a socket that a page of elsewhere opens', async () => {
    const headers = {
      connection: 'Upgrade',
      upgrade: 'websocket',
      'sec-websocket-version': '13',
      'sec-websocket-key': 'dGhlIHNhbXBsZSBub25jZQ==',
      'sec-websocket-protocol': 'graphql-transport-ws',
    };
    const handshake = (origin: string) =>
      new Promise((resolve, reject) => {
        const call = request(`${url}/graphql`, { headers: { ...headers, origin } });
        call.once('response', (response) => {
          response.resume();
          resolve(response.statusCode);
        });
        call.once('upgrade', (response, socket) => {
          socket.destroy();
          resolve(response.statusCode);
        });
        call.once('error', reject);
        call.end();
      });
    await expect(handshake('https://elsewhere.example')).resolves.toBe(403);
    await expect(handshake(url)).resolves.toBe(101);
  });

  test('does not take a form for a query', async () => {
    const answer = await fetch(`${url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      body: 'query={fault}',
    });
    expect(answer.status).toBe(415);
  });

  test('lets a running request end when it stops', async () => {
    const stopping = await createApp(moduleWith(ProbeModule), config(), []);
    await stopping.listen(0, '127.0.0.1');
    const begun = once(slow, 'begun');
    const answered = fetch(`${await stopping.getUrl()}/api/v1/probe/slow`);
    await begun;
    await stopping.close();
    await expect(answered.then((answer) => answer.text())).resolves.toBe('done');
  });

  test('does not start while nobody decided who may call a handler', async () => {
    const open = await createApp(moduleWith(OpenModule), config(), []);
    await expect(open.init()).rejects.toThrow(
      'no row of the table for GET open (OpenController.nobodyDecided)',
    );
    await open.close();
  });

  test('does not start while the table has a row that nobody answers to', async () => {
    const wish = row('probe.wish', ['GET probe/wish'], 'anyone', 'service', null);
    const root = {
      module: ProbeModule,
      imports: [PlatformModule.with(config(), [...probeTable, wish])],
    };
    const app = await createApp(root, config(), []);
    await expect(app.init()).rejects.toThrow('no handler for GET probe/wish (row probe.wish)');
    await app.close();
  });
});

describe('the documentation', () => {
  test('is an OpenAPI 3.1 document whose references all lead somewhere', async () => {
    const { status, body } = await api.rest('GET', '/openapi.json');
    expect(status).toBe(200);
    expect(body.openapi).toBe('3.1.0');
    const references = [
      ...JSON.stringify(body).matchAll(/"\$ref":"#\/components\/schemas\/([^"]+)"/g),
    ];
    expect(references.length).toBeGreaterThan(100);
    for (const [, name] of references) {
      expect(body).toHaveProperty(['components', 'schemas', name]);
    }
    const paths = z.record(z.string(), z.record(z.string(), z.looseObject({}))).parse(body.paths);
    for (const [address, operations] of Object.entries(paths)) {
      const names = [...address.matchAll(/\{(\w+)\}/g)].map(([, name]) => name).sort();
      for (const { parameters = [] } of Object.values(operations)) {
        const own = z.array(z.looseObject({ name: z.string(), in: z.string() })).parse(parameters);
        const inPath = own.filter((one) => one.in === 'path').map(({ name }) => name);
        expect([address, inPath.sort()]).toEqual([address, names]);
      }
    }
    expect(body).toHaveProperty([
      'paths',
      '/api/v1/yards/{yardId}/parts/{id}',
      'patch',
      'responses',
      '200',
    ]);
    expect(body).toHaveProperty(
      ['components', 'schemas', 'PersonInput', 'properties', 'email', 'anyOf', 0, 'format'],
      'email',
    );
  });

  test('can be browsed with what the service itself serves', async () => {
    const page = await fetch(`${api.url}/api/v1/docs`);
    const html = await page.text();
    expect(page.status).toBe(200);
    const assets = [...html.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, address]) => address);
    expect(assets.length).toBeGreaterThan(2);
    for (const address of assets) {
      const asset = new URL(address, `${api.url}/api/v1/docs`);
      expect(asset.origin).toBe(new URL(api.url).origin);
      expect((await fetch(asset)).status, address).toBe(200);
    }
  });
});

describe('the start', () => {
  test('refuses a public address while a demo account exists, unless told', async () => {
    const options = { databaseUrl: database.serviceUrl, port: 0, host: '0.0.0.0', logLevels: [] };
    const account = await database.owner.account.create({
      data: { email: 'demo@yard.example', name: 'Demo', passwordHash: null },
    });
    await expect(startApi(options)).rejects.toThrow('demo@yard.example');
    const proxied = { ...options, host: '127.0.0.1', publicUrl: new URL('https://yard.example') };
    await expect(startApi(proxied)).rejects.toThrow('PUBLIC_URL https://yard.example can be');
    const allowed = await startApi({ ...options, allowPublicDemo: true });
    await allowed.close();
    await database.owner.account.delete({ where: { id: account.id } });
    expect(Object.values(people)).not.toContain(account.email);
  });
});
