import { createClient } from '#persistence/client.ts';
import { startThrowAway } from '#persistence/embedded/throw-away.ts';
import { deployMigrations } from '#persistence/migrate/deploy.ts';
import { ensureDatabase, withClient } from '#persistence/roles.ts';
import type { TestDatabase } from '../../support/database.ts';

export interface Stage {
  /** A migrated database; a copy of `template` (to which nobody may be connected) where one is named. */
  database(name: string, template?: string): Promise<TestDatabase>;
  /** Gives the clients of a database back. */
  leave(database: TestDatabase): Promise<void>;
}

/** A server of its own for one measurement, gone after it. */
export async function onStage<T>(use: (stage: Stage) => Promise<T>): Promise<T> {
  const server = await startThrowAway();
  const at = (url: string, name: string): string => {
    const changed = new URL(url);
    changed.pathname = `/${name}`;
    return changed.href;
  };
  const open = new Set<TestDatabase>();
  const leave = async (database: TestDatabase): Promise<void> => {
    await Promise.all([database.owner.$disconnect(), database.service.$disconnect()]);
    open.delete(database);
  };
  const make = async (name: string, template?: string): Promise<TestDatabase> => {
    await withClient(server.adminUrl, (admin) => ensureDatabase(admin, name, template));
    const ownerUrl = at(server.ownerUrl, name);
    const serviceUrl = at(server.serviceUrl, name);
    if (template === undefined) await deployMigrations(ownerUrl);
    const database = {
      adminUrl: at(server.adminUrl, name),
      ownerUrl,
      serviceUrl,
      owner: createClient(ownerUrl, { connections: 2 }),
      service: createClient(serviceUrl, { connections: 2 }),
    };
    open.add(database);
    return database;
  };
  try {
    return await use({ database: make, leave });
  } finally {
    for (const database of open) await leave(database);
    await server.stop();
  }
}
