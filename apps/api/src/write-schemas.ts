/**
 * Writes what others may build on: apps/api/schema.graphql, and the types of the REST interface
 * for the screens; with `--check` only says which is stale (exit 1). Needs no database.
 * node --import ./apps/launch/ts-hook.mjs apps/api/src/write-schemas.ts [--check]
 */
import 'reflect-metadata';
import { readFile, writeFile } from 'node:fs/promises';
import openapiTypescript, { astToString } from 'openapi-typescript';
import { AppModule, rootModule } from './app.module.ts';
import { withDefaults } from './platform/config/defaults.ts';
import { schemaText } from './platform/graphql/schema-text.ts';
import { openApiDocument } from './platform/http/docs.ts';
import { createApp } from './platform/http/server.ts';

async function restTypes(): Promise<string> {
  // Nothing connects before the application is initialised.
  const config = withDefaults({ databaseUrl: 'postgres://nobody@localhost/nothing' });
  const app = await createApp(rootModule(config), config, []);
  const text = JSON.stringify(openApiDocument(app));
  const heading =
    '// Made by `npm run schema` from the shapes of apps/api; not edited by hand.\n\n';
  const types = astToString(await openapiTypescript(text, { defaultNonNullable: false }));
  // Kinds of things that the interface has none of.
  const empty = /^export type (?:webhooks|\$defs) = Record<string, never>;\n/gm;
  return heading + types.replaceAll(empty, '');
}

const files = [
  ['../schema.graphql', await schemaText(AppModule)],
  ['../../web/src/api/schema.ts', await restTypes()],
] as const;

for (const [path, fresh] of files) {
  const file = new URL(path, import.meta.url);
  if (!process.argv.includes('--check')) await writeFile(file, fresh);
  else if ((await readFile(file, 'utf8').catch(() => '')) !== fresh) {
    process.stderr.write(`${path} is stale: run \`npm run schema\` and commit it.\n`);
    process.exitCode = 1;
  }
}
process.exit();
