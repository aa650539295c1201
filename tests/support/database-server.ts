import type { TestProject } from 'vitest/node';
import { startThrowAway } from '#persistence/embedded/throw-away.ts';
import { deployMigrations } from '#persistence/migrate/deploy.ts';
import { ensureDatabase, withClient } from '#persistence/roles.ts';

/** What a test file needs to clone itself a database. */
export interface DatabaseServer {
  readonly adminUrl: string;
  readonly ownerUrl: string;
  readonly serviceUrl: string;
}

declare module 'vitest' {
  export interface ProvidedContext {
    databaseServer: DatabaseServer;
  }
}

export const template = 'curewright_template';

/** The same address with another database. */
export function withDatabase(url: string, name: string): string {
  const changed = new URL(url);
  changed.pathname = `/${name}`;
  return changed.href;
}

/** Vitest's global set-up: one server a run, with a migrated database to clone. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const server = await startThrowAway();
  try {
    await withClient(server.adminUrl, (admin) => ensureDatabase(admin, template));
    await deployMigrations(withDatabase(server.ownerUrl, template));
  } catch (error) {
    await server.stop();
    throw error;
  }
  const { adminUrl, ownerUrl, serviceUrl } = server;
  project.provide('databaseServer', { adminUrl, ownerUrl, serviceUrl });
  return () => server.stop();
}
