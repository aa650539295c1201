import { afterAll, beforeAll } from 'vitest';
import { createClient } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { ensureDatabase, withClient } from '#persistence/roles.ts';
import { databaseServer, template, withDatabase } from './database-server.ts';

export interface TestDatabase {
  /** Superuser, on this database. */
  readonly adminUrl: string;
  readonly ownerUrl: string;
  readonly serviceUrl: string;
  /** Clients that live until the file's tests are done. */
  readonly owner: PrismaClient;
  readonly service: PrismaClient;
}

/**
 * A migrated, empty database of this test file's own. Call it at the top level (or in a
 * `describe`): it is there in the tests and their hooks, and dropped after the last.
 */
export function testDatabase(): TestDatabase {
  const server = databaseServer();
  const name = `test_${crypto.randomUUID().replaceAll('-', '')}`;
  const [adminUrl, ownerUrl, serviceUrl] = [
    server.adminUrl,
    server.ownerUrl,
    server.serviceUrl,
  ].map((url) => withDatabase(url, name));
  const owner = createClient(ownerUrl, { connections: 3 });
  const service = createClient(serviceUrl);

  beforeAll(() => withClient(server.adminUrl, (admin) => ensureDatabase(admin, name, template)));
  afterAll(async () => {
    await Promise.all([owner.$disconnect(), service.$disconnect()]);
    await withClient(server.adminUrl, (admin) => admin.query(`DROP DATABASE ${name} WITH (FORCE)`));
  });
  return { adminUrl, ownerUrl, serviceUrl, owner, service };
}
