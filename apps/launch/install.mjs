import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { pinnedNode } from './run.mjs';

/** Runs `npm ci` unless node_modules already is what package-lock.json says. */
export function installDependencies(root) {
  if (installed(root)) return;
  console.error('Installing dependencies (a minute, once)...');
  const command = ['ci', '--include=dev', '--no-audit', '--no-fund'];
  const result = spawnSync('npm', command, {
    cwd: root,
    encoding: 'utf8',
    env: installEnvironment(root),
    shell: process.platform === 'win32',
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (result.status !== 0 || !installed(root)) {
    const said = [result.error?.message, result.stdout, result.stderr].filter(Boolean).join('\n');
    throw new Error(`npm ${command.join(' ')} failed:\n${said}`);
  }
}

/**
 * npm writes node_modules/.package-lock.json at the end of an installation. Packages for other
 * platforms are in the lock file as optional and stay absent.
 */
function installed(root) {
  const wanted = packages(join(root, 'package-lock.json'));
  const found = packages(join(root, 'node_modules', '.package-lock.json'));
  if (wanted === undefined) throw new Error('package-lock.json is missing.');
  if (found === undefined || !existsSync(pinnedNode(root))) return false;
  return Object.entries(wanted).every(([path, { version, optional }]) => {
    if (path === '') return true;
    return path in found ? found[path].version === version : optional === true;
  });
}

function packages(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).packages : undefined;
}

/**
 * npm must not run on the Node inside the folder that it replaces. npm before 11.16 knows no
 * allowScripts and runs every install script: the variables keep telemetry and a download,
 * neither of which is needed, out of those.
 */
function installEnvironment(root) {
  const inside = join(root, 'node_modules');
  const path = (process.env.PATH ?? '').split(delimiter);
  return {
    ...process.env,
    PATH: path.filter((folder) => !folder.startsWith(inside)).join(delimiter),
    SCARF_ANALYTICS: 'false',
    PRISMA_SCHEMA_ENGINE_BINARY: process.env.PRISMA_SCHEMA_ENGINE_BINARY ?? process.execPath,
  };
}
