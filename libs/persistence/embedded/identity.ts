import { execFileSync, type SpawnOptions } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/** Which user runs the server, and how a command is started as that user. */
export interface Identity {
  /** Null: as ourselves. */
  readonly uid: number | null;
  readonly gid: number | null;
  command(program: string, args: readonly string[]): [string, readonly string[], SpawnOptions];
}

const asOurselves: Identity = {
  uid: null,
  gid: null,
  command: (program, args) => [program, args, {}],
};

function account(name: string): { uid: number; gid: number } | null {
  const ask = (flag: string): number =>
    Number(
      execFileSync('id', [flag, name], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }),
    );
  try {
    return { uid: ask('-u'), gid: ask('-g') };
  } catch {
    return null;
  }
}

/** Data that root has copied (`cp -r`) is root's, which the server refuses: gives it to the server's user. */
export function handOver(dataFolder: string, { uid, gid }: Identity): void {
  if (uid === null || gid === null || statSync(dataFolder).uid === uid) return;
  execFileSync('chown', ['-R', `${String(uid)}:${String(gid)}`, dataFolder]);
}

/** Whether everybody may pass through all folders above `path`. */
function reachable(path: string): boolean {
  for (let folder = dirname(resolve(path)); ; folder = dirname(folder)) {
    if (existsSync(folder) && (statSync(folder).mode & 0o001) === 0) return false;
    if (folder === dirname(folder)) return true;
  }
}

/**
 * PostgreSQL refuses to run as root. Then it runs as the owner of an existing data folder, or
 * else as `postgres`, or else as `nobody`; no user is created. Where a folder above the
 * programs or the data is closed to others (a clone under /root, or in a private temporary
 * folder), that user is given the one capability that passes through it.
 */
export function identityFor(dataFolder: string, program: string): Identity {
  if (process.getuid?.() !== 0) return asOurselves;
  const owner = existsSync(dataFolder) ? statSync(dataFolder) : null;
  const chosen =
    owner !== null && owner.uid !== 0
      ? { uid: owner.uid, gid: owner.gid }
      : (account('postgres') ?? account('nobody'));
  if (chosen === null)
    throw new Error('PostgreSQL cannot run as root, and there is no user "nobody"');
  const { uid, gid } = chosen;
  if (reachable(dataFolder) && reachable(program)) {
    return { uid, gid, command: (file, args) => [file, args, { uid, gid }] };
  }
  const passing = [
    `--reuid=${String(uid)}`,
    `--regid=${String(gid)}`,
    '--clear-groups',
    '--inh-caps=+dac_override',
    '--ambient-caps=+dac_override',
  ];
  return { uid, gid, command: (file, args) => ['setpriv', [...passing, file, ...args], {}] };
}
