import { z } from 'zod';
import { startThrowAway } from '#persistence/embedded/throw-away.ts';
import { deployMigrations } from '#persistence/migrate/deploy.ts';
import { ensureDatabase, withClient } from '#persistence/roles.ts';

/** What a test file needs to clone itself a database. */
const serverSchema = z.object({
  adminUrl: z.string(),
  ownerUrl: z.string(),
  serviceUrl: z.string(),
});

/** Workers are started after the set-up and inherit its environment. */
const variable = 'CUREWRIGHT_TEST_SERVER';

export const databaseServer = (): z.infer<typeof serverSchema> =>
  serverSchema.parse(JSON.parse(process.env[variable] ?? 'null'));

export const template = 'curewright_template';

/** The same address with another database. */
export function withDatabase(url: string, name: string): string {
  const changed = new URL(url);
  changed.pathname = `/${name}`;
  return changed.href;
}

/** Vitest's global set-up: one server a run, with a migrated database to clone. */
export default async function setup(): Promise<() => Promise<void>> {
  const server = await startThrowAway();
  try {
    await withClient(server.adminUrl, (admin) => ensureDatabase(admin, template));
    await deployMigrations(withDatabase(server.ownerUrl, template));
  } catch (error) {
    await server.stop();
    throw error;
  }
  const { adminUrl, ownerUrl, serviceUrl } = server;
  process.env[variable] = JSON.stringify({ adminUrl, ownerUrl, serviceUrl });
  return () => server.stop();
}
