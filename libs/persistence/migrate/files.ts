import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { MigrationList, SchemaContainer } from '@prisma/schema-engine-wasm';

const prismaFolder = fileURLToPath(new URL('../../../prisma/', import.meta.url));

export const noFilter = { externalTables: [], externalEnums: [] };

/** Every `.prisma` file of prisma/: together they are the schema. */
export async function schemaFiles(): Promise<SchemaContainer[]> {
  const names = await readdir(prismaFolder, { recursive: true });
  const paths = names
    .filter((name) => name.endsWith('.prisma'))
    .map((name) => join(prismaFolder, name));
  return Promise.all(
    paths.sort().map(async (path) => ({ path, content: await readFile(path, 'utf8') })),
  );
}

/** prisma/migrations, oldest first. */
export async function migrationList(): Promise<MigrationList> {
  const baseDir = join(prismaFolder, 'migrations');
  const entries = await readdir(baseDir, { withFileTypes: true }).catch((error: unknown) => {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
    throw error;
  });
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name);
  const migrationDirectories = await Promise.all(
    names.sort().map(async (name) => ({
      path: name,
      migrationFile: {
        path: 'migration.sql',
        content: {
          tag: 'ok' as const,
          value: await readFile(join(baseDir, name, 'migration.sql'), 'utf8'),
        },
      },
    })),
  );
  const lockfile = join(baseDir, 'migration_lock.toml');
  return {
    baseDir,
    lockfile: {
      path: 'migration_lock.toml',
      content: await readFile(lockfile, 'utf8').catch(() => null),
    },
    shadowDbInitScript: '',
    migrationDirectories,
  };
}
