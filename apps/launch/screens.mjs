import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pinnedNode } from './run.mjs';

/** What the screens are made of, besides what package-lock.json says. */
const sources = ['apps/web', 'libs/kernel', 'libs/calendar', 'seeds'];
const taken = /\.(tsx?|css|html|svg|json|webmanifest)$/;
const left = /(^|[\\/])(dist|node_modules)[\\/]|\.test\.tsx?$/;

/**
 * Builds the screens (git-ignored) when what they are made of changed since the last time. The new
 * ones take the place of the old in one step: a service that is being started reads the one or the other.
 */
export function buildScreens(root) {
  const dist = join(root, 'apps', 'web', 'dist');
  const wanted = digest(root);
  if (stampOf(dist) === wanted) return;

  console.error('Building the screens (some seconds)...');
  const made = join(root, '.curewright', 'screens-made');
  const vite = join(root, 'node_modules', 'vite', 'bin', 'vite.js');
  const args = ['build', 'apps/web', '--outDir', made, '--emptyOutDir', '--logLevel', 'warn'];
  const result = spawnSync(pinnedNode(root), [vite, ...args], {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (result.status !== 0) {
    throw new Error(`The screens cannot be built:\n${result.stdout}\n${result.stderr}`);
  }
  writeFileSync(join(made, stamp), wanted);
  const old = `${made}-before`;
  rmSync(old, { recursive: true, force: true });
  if (existsSync(dist)) renameSync(dist, old);
  renameSync(made, dist);
  rmSync(old, { recursive: true, force: true });
}

const stamp = '.made-from.sha256';

function stampOf(dist) {
  const file = join(dist, stamp);
  return existsSync(file) ? readFileSync(file, 'utf8') : undefined;
}

function digest(root) {
  const hash = createHash('sha256').update(readFileSync(join(root, 'package-lock.json')));
  for (const folder of sources) {
    const names = readdirSync(join(root, folder), { recursive: true });
    for (const name of names.filter((one) => taken.test(one) && !left.test(one)).sort()) {
      hash
        .update(`${folder}/${name}\0`)
        .update(readFileSync(join(root, folder, name)))
        .update('\0');
    }
  }
  return hash.digest('hex');
}
