import { join } from 'node:path';
import { startEmbedded } from '#persistence/embedded/start.ts';
import { deployMigrations } from '#persistence/migrate/deploy.ts';
import type { Settings } from './settings.ts';

export interface RunningDatabase {
  /** What api and worker sign in with; the owner's address stays here. */
  readonly serviceUrl: string;
  /** One line for the user. */
  readonly words: string;
  readonly stop: () => Promise<void>;
}

/** The database, migrated: the given one, or PostgreSQL in the folder. */
export async function openDatabase(
  { database, folder }: Settings,
  opened: (database: RunningDatabase) => void,
): Promise<RunningDatabase> {
  if (database !== null) {
    const { serviceUrl, ownerUrl } = database;
    if (ownerUrl !== null) await deployMigrations(ownerUrl);
    const words =
      ownerUrl === null
        ? 'Database of DATABASE_URL, as it is (MIGRATE_DATABASE_URL is not set).'
        : 'Database of DATABASE_URL, migrated.';
    const given = { serviceUrl, words, stop: () => Promise.resolve() };
    opened(given);
    return given;
  }
  const embedded = await startEmbedded({ folder: join(folder, 'postgres'), stopOnSignal: false });
  const own = {
    serviceUrl: embedded.serviceUrl,
    words: `PostgreSQL 18 in ${join(folder, 'postgres')}, port ${String(embedded.port)}.`,
    stop: () => embedded.stop(),
  };
  opened(own);
  await deployMigrations(embedded.ownerUrl);
  return own;
}
