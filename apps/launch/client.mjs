import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pinnedNode } from './run.mjs';

/** Generates the Prisma client (git-ignored) when the schema or Prisma changed since the last time. */
export function generateClient(root) {
  const schema = join(root, 'prisma');
  const stamp = join(root, 'libs', 'persistence', 'generated', 'made-from.sha256');
  const prisma = join(root, 'node_modules', 'prisma');
  const wanted = digest([...schemaFiles(schema), join(prisma, 'package.json')]);
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;

  const cli = join(prisma, 'build', 'index.js');
  const result = spawnSync(pinnedNode(root), [cli, 'generate', '--schema', schema], {
    cwd: root,
    encoding: 'utf8',
    env: generateEnvironment(root),
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (result.status !== 0) {
    throw new Error(`prisma generate failed:\n${result.stdout}\n${result.stderr}`);
  }
  writeFileSync(stamp, wanted);
}

function schemaFiles(folder) {
  const names = readdirSync(folder, { recursive: true });
  return names
    .filter((name) => name.endsWith('.prisma'))
    .sort()
    .map((name) => join(folder, name));
}

function digest(files) {
  const hash = createHash('sha256');
  for (const file of files) hash.update(readFileSync(file)).update('\0');
  return hash.digest('hex');
}

/**
 * The command line fetches a native schema engine that `generate` never calls. Any file that
 * exists, named by the variable, stops it; where the engine was fetched, it is left alone.
 */
function generateEnvironment(root) {
  const engines = join(root, 'node_modules', '@prisma', 'engines');
  const fetched = readdirSync(engines).some((file) => file.startsWith('schema-engine-'));
  return {
    ...process.env,
    CHECKPOINT_DISABLE: '1',
    PRISMA_HIDE_UPDATE_MESSAGE: '1',
    ...(fetched ? {} : { PRISMA_SCHEMA_ENGINE_BINARY: process.execPath }),
  };
}
