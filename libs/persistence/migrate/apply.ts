import { ensureDatabase, ensureRoles, withClient } from '../roles.ts';
import { deployMigrations } from './deploy.ts';

/**
 * `node libs/persistence/migrate/apply.ts`: brings a database up to date.
 *   MIGRATE_DATABASE_URL  as curewright_owner, who runs the migrations
 *   ADMIN_DATABASE_URL    optional, a superuser: first makes the roles and the database, with
 *                         the passwords of MIGRATE_DATABASE_URL and DATABASE_URL
 *   DATABASE_URL          as curewright_service; read only with ADMIN_DATABASE_URL
 */
async function main(): Promise<void> {
  const ownerUrl = needed('MIGRATE_DATABASE_URL');
  const adminUrl = process.env['ADMIN_DATABASE_URL'];
  if (adminUrl !== undefined && adminUrl !== '') {
    const passwords = {
      ownerPassword: password(ownerUrl),
      servicePassword: password(needed('DATABASE_URL')),
    };
    const database = decodeURIComponent(new URL(ownerUrl).pathname.slice(1));
    await withClient(adminUrl, async (admin) => {
      await ensureRoles(admin, passwords);
      await ensureDatabase(admin, database);
    });
  }
  const applied = await deployMigrations(ownerUrl);
  process.stdout.write(
    applied.length === 0 ? 'Nothing to migrate\n' : `Migrated: ${applied.join(', ')}\n`,
  );
}

function needed(name: string): string {
  const value = process.env[name];
  if (value === undefined || value === '') throw new Error(`${name} is not set`);
  return value;
}

const password = (url: string): string => decodeURIComponent(new URL(url).password);

await main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
});
