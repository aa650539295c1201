import { readFile } from 'node:fs/promises';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import { buildSchema, lexicographicSortSchema, printSchema } from 'graphql';
import { describe, expect, test } from 'vitest';
import { readDocument } from '../requests/operations.ts';
import type { GroundOf } from './ground.ts';
import { routesOf } from './routes.ts';

/** What is served besides the operations: GraphQL's one address, the documents, and pages that hold no data. */
const besides =
  /^(GET|POST) \/graphql$|^GET \/api\/v1\/(docs|openapi)|^GET \/(password|invitation)(\.css|\.js)?$/;

/** That both documents and the table have the same operations is shown by walk.test.ts. */
export function inventory(groundOf: GroundOf): void {
  describe('API9:2023 Improper Inventory Management', () => {
    test('the document has every route that is served, and no other', async () => {
      const { calls, world } = groundOf();
      const { text } = await calls.call('GET', '/api/v1/openapi.json');
      const told = readDocument(JSON.parse(text)).operations.map(
        ({ method, path }) => `${method} ${path}`,
      );
      const served = (await routesOf(world.database.serviceUrl)).filter(
        // HEAD is answered by the handler of GET, OPTIONS by none.
        (route) => !route.startsWith('HEAD ') && !besides.test(route),
      );
      expect([...new Set(served)].sort()).toEqual([...told].sort());
      expect(told.length).toBeGreaterThan(100);
    });

    test('the schema in the project is the one that is served', async () => {
      const { world } = groundOf();
      const served = world.app.get(GraphQLSchemaHost, { strict: false }).schema;
      const file = await readFile(
        new URL('../../../apps/api/schema.graphql', import.meta.url),
        'utf8',
      );
      const sorted = (schema: typeof served): string =>
        printSchema(lexicographicSortSchema(schema));
      expect(sorted(served)).toBe(sorted(buildSchema(file)));
    });

    test('no older version, no tool and no other face is left open', async () => {
      const { calls } = groundOf();
      const forgotten = [
        ...['/api', '/api/v1', '/api/v0/health', '/api/v2/health', '/v1/health', '/health'],
        ...[
          '/graphiql',
          '/playground',
          '/altair',
          '/voyager',
          '/api/v1/graphql',
          '/graphql/schema',
        ],
        ...[
          '/metrics',
          '/debug',
          '/admin',
          '/status',
          '/env',
          '/.env',
          '/.git/config',
          '/server.js',
        ],
        ...['/api/v1/probe/fault', '/api/v1/open', '/api/v1/docs/../../package.json'],
      ];
      for (const url of forgotten) {
        const { status } = await calls.call('GET', url);
        expect([url, status]).toEqual([url, 404]);
      }
    });
  });
}
