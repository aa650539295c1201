import type { SchemaContainer } from '@prisma/schema-engine-wasm';
import { withEngine } from './engine.ts';
import { migrationList, noFilter, schemaFiles } from './files.ts';

/**
 * What `schema` has that prisma/migrations do not make, and the reverse; null when they agree.
 * Replays the migrations on the database at `url`, which must be empty. `script: true` gives
 * the SQL that would be the next migration.
 */
export async function differences(
  url: string,
  options: { readonly schema?: readonly SchemaContainer[]; readonly script?: boolean } = {},
): Promise<string | null> {
  const list = await migrationList();
  const schema = options.schema ?? (await schemaFiles());
  const found = await withEngine(url, (engine) =>
    engine.diff({
      from:
        list.migrationDirectories.length === 0 ? { tag: 'empty' } : { tag: 'migrations', ...list },
      to: { tag: 'schemaDatamodel', files: [...schema] },
      script: options.script ?? false,
      exitCode: true,
      filters: noFilter,
    }),
  );
  return found.exitCode === 0 ? null : (found.stdout ?? '');
}
