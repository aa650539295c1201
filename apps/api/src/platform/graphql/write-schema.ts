/**
 * Writes apps/api/schema.graphql; with `--check` only says whether it is stale (exit 1).
 * node --import ./apps/launch/ts-hook.mjs apps/api/src/platform/graphql/write-schema.ts [--check]
 */
import 'reflect-metadata';
import { readFile, writeFile } from 'node:fs/promises';
import { AppModule } from '../../app.module.ts';
import { schemaText } from './schema-text.ts';

const file = new URL('../../../schema.graphql', import.meta.url);
const fresh = await schemaText(AppModule);

if (!process.argv.includes('--check')) {
  await writeFile(file, fresh);
} else if ((await readFile(file, 'utf8').catch(() => '')) !== fresh) {
  process.stderr.write('apps/api/schema.graphql is stale: run `npm run schema` and commit it.\n');
  process.exitCode = 1;
}
