import { expect, test } from 'vitest';
import { assertMigrated, assertReachable } from '#persistence/reach.ts';
import { withClient } from '#persistence/roles.ts';
import { testDatabase } from '#tests/support/database.ts';

const database = testDatabase();

function changed(change: (url: URL) => void): string {
  const url = new URL(database.serviceUrl);
  change(url);
  return url.href;
}

test('a database that is there and migrated is found so', async () => {
  await expect(assertReachable('DATABASE_URL', database.serviceUrl)).resolves.toBeUndefined();
  await expect(assertMigrated(database.serviceUrl)).resolves.toBeUndefined();
});

test.each([
  ['password', (url: URL) => (url.password = 'wrong'), 'refuses the user "curewright_service"'],
  ['user', (url: URL) => (url.username = 'nobody'), 'refuses the user "nobody"'],
  ['database', (url: URL) => (url.pathname = '/no-such'), 'has no database "no-such"'],
  ['port', (url: URL) => (url.port = '1'), 'no PostgreSQL answers at 127.0.0.1:1 (connect ECONN'],
])('a wrong %s is told with the variable, and no password', async (_what, change, words) => {
  const url = changed(change);
  const error: unknown = await assertReachable('DATABASE_URL', url).then(
    () => null,
    (thrown: unknown) => thrown,
  );
  const said = String(error);
  expect(said).toContain(`DATABASE_URL: `);
  expect(said).toContain(words);
  expect(said).not.toContain(new URL(url).password);
});

test('a user who may not connect is told so', async () => {
  const { pathname } = new URL(database.serviceUrl);
  await withClient(database.adminUrl, (admin) =>
    admin.query(`REVOKE CONNECT ON DATABASE ${pathname.slice(1)} FROM curewright_service`),
  );
  await expect(assertReachable('DATABASE_URL', database.serviceUrl)).rejects.toThrow(
    /does not let the user "curewright_service" into "test_\w+"/,
  );
});

test('a database without tables is told from one with', async () => {
  const bare = new URL(database.adminUrl);
  bare.pathname = '/postgres';
  await expect(assertMigrated(bare.href)).rejects.toThrow(/"postgres" has no tables.*MIGRATE_/);
});
