import { expect, test } from 'vitest';
import { assertMigrated, assertReachable, assertSecondWall } from '#persistence/reach.ts';
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
  await expect(assertMigrated('DATABASE_URL', database.serviceUrl)).resolves.toBeUndefined();
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

test('whoever could look past the wall is turned away, and a table that is open is named', async () => {
  await expect(assertSecondWall(database.serviceUrl)).resolves.toBeUndefined();
  await expect(assertSecondWall(database.ownerUrl)).rejects.toThrow(
    /^DATABASE_URL: the user "curewright_owner" owns tables \(_prisma_migrations, account, .*Use curewright_service/,
  );
  await expect(assertSecondWall(database.adminUrl)).rejects.toThrow('may look past row security');
  await withClient(database.ownerUrl, async (owner) => {
    await owner.query('CREATE TABLE crate (yard_id text)');
    const open = /have no row security \(crate\)\. Bring it up to date/;
    await expect(assertSecondWall(database.serviceUrl)).rejects.toThrow(open);
    await owner.query('ALTER TABLE crate ENABLE ROW LEVEL SECURITY');
    await expect(assertSecondWall(database.serviceUrl)).resolves.toBeUndefined();
  });
});

test('whoever may become a role that looks past the wall is turned away too', async () => {
  const role = `seer_${String(process.pid)}`;
  await withClient(database.adminUrl, async (admin) => {
    await admin.query(`CREATE ROLE ${role} BYPASSRLS`);
    try {
      await admin.query(`CREATE ROLE ${role}_guest LOGIN PASSWORD 'guest' IN ROLE ${role}`);
      const { pathname } = new URL(database.adminUrl);
      await admin.query(`GRANT CONNECT ON DATABASE ${pathname.slice(1)} TO ${role}_guest`);
      const url = changed((guest) => {
        guest.username = `${role}_guest`;
        guest.password = 'guest';
      });
      await expect(assertSecondWall(url)).rejects.toThrow('may look past row security');
    } finally {
      await admin.query(`DROP OWNED BY ${role}_guest`);
      await admin.query(`DROP ROLE ${role}_guest, ${role}`);
    }
  });
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
  await expect(assertMigrated('SOME_URL', bare.href)).rejects.toThrow(
    /^SOME_URL: .*"postgres" has no tables.*MIGRATE_/,
  );
});
