import { join } from 'node:path';
import { startEmbedded } from '#persistence/embedded/start.ts';
import { deployMigrations } from '#persistence/migrate/deploy.ts';
import { assertMigrated, assertReachable } from '#persistence/reach.ts';
import type { Settings } from './settings.ts';

export interface RunningDatabase {
  /** What api and worker sign in with; the owner's address stays here. */
  readonly serviceUrl: string;
  /** One line for the user. */
  readonly words: string;
  readonly migrate: () => Promise<void>;
  readonly stop: () => Promise<void>;
}

/** The given database, or PostgreSQL in the folder. */
export async function openDatabase({ database, folder }: Settings): Promise<RunningDatabase> {
  if (database !== null) {
    const { serviceUrl, ownerUrl } = database;
    await assertReachable('DATABASE_URL', serviceUrl);
    if (ownerUrl !== null) await assertReachable('MIGRATE_DATABASE_URL', ownerUrl);
    return {
      serviceUrl,
      words:
        ownerUrl === null
          ? 'Database of DATABASE_URL, as it is (MIGRATE_DATABASE_URL is not set).'
          : 'Database of DATABASE_URL, migrated.',
      migrate: () =>
        ownerUrl === null ? assertMigrated('DATABASE_URL', serviceUrl) : migrated(ownerUrl),
      stop: () => Promise.resolve(),
    };
  }
  const embedded = await startEmbedded({ folder: join(folder, 'postgres'), stopOnSignal: false });
  return {
    serviceUrl: embedded.serviceUrl,
    words: `PostgreSQL 18 in ${join(folder, 'postgres')}, port ${String(embedded.port)}.`,
    migrate: () => migrated(embedded.ownerUrl),
    stop: () => embedded.stop(),
  };
}

async function migrated(ownerUrl: string): Promise<void> {
  await deployMigrations(ownerUrl);
}
