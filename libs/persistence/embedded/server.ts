import { spawn, spawnSync } from 'node:child_process';
import { closeSync, openSync } from 'node:fs';
import { chown, mkdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';
import type { Binaries } from './binaries.ts';
import type { Identity } from './identity.ts';

export const adminRole = 'curewright_admin';

/** Makes a cluster in `data`, whole or not at all. */
export async function initialise(
  data: string,
  password: string,
  binaries: Binaries,
  identity: Identity,
): Promise<void> {
  const unfinished = `${data}.new`;
  const passwordFile = `${data}.password`;
  await rm(unfinished, { recursive: true, force: true });
  await mkdir(unfinished, { mode: 0o700 });
  await writeFile(passwordFile, `${password}\n`, { mode: 0o600 });
  if (identity.uid !== null && identity.gid !== null) {
    await chown(unfinished, identity.uid, identity.gid);
    await chown(passwordFile, identity.uid, identity.gid);
  }
  const [file, args, options] = identity.command(binaries.initdb, [
    `--pgdata=${unfinished}`,
    `--username=${adminRole}`,
    `--pwfile=${passwordFile}`,
    '--auth=scram-sha-256',
    '--encoding=UTF8',
    '--locale=C',
    '--locale-provider=builtin',
    '--builtin-locale=C.UTF-8',
    '--no-instructions',
  ]);
  const done = spawnSync(file, args, { ...options, encoding: 'utf8', stdio: 'pipe' });
  await rm(passwordFile, { force: true });
  if (done.error !== undefined || done.status !== 0) {
    throw new Error(`initdb failed: ${done.stderr}`, { cause: done.error });
  }
  await rename(unfinished, data);
}

/** The first lines of postmaster.pid: process and port. Null where there is none. */
export async function readPidFile(data: string): Promise<{ pid: number; port: number } | null> {
  const text = await readFile(join(data, 'postmaster.pid'), 'utf8').catch(() => null);
  const lines = text?.split('\n') ?? [];
  const pid = Number(lines[0]);
  const port = Number(lines[3]);
  return pid > 0 && port > 0 ? { pid, port } : null;
}

export function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/** Whether `pid` is a server of this data folder, and not another process with a reused number. */
export async function serves(pid: number, data: string): Promise<boolean> {
  if (!alive(pid)) return false;
  const line = await readFile(`/proc/${String(pid)}/cmdline`, 'utf8').catch(
    () =>
      spawnSync('ps', ['-ww', '-o', 'command=', '-p', String(pid)], { encoding: 'utf8' }).stdout,
  );
  return line.includes('postgres') && line.includes(data);
}

/** A port of the loopback interface that is free now, `wanted` if it is. */
export async function freePort(wanted: number | null): Promise<number> {
  const attempt = (port: number): Promise<number | null> =>
    new Promise((resolve) => {
      const probe = createServer();
      probe.once('error', () => {
        resolve(null);
      });
      probe.listen({ port, host: '127.0.0.1', exclusive: true }, () => {
        const address = probe.address();
        const found = address !== null && typeof address === 'object' ? address.port : null;
        probe.close(() => {
          resolve(found);
        });
      });
    });
  const found = (wanted === null ? null : await attempt(wanted)) ?? (await attempt(0));
  if (found === null) throw new Error('No free port on the loopback interface');
  return found;
}

const biggestLog = 8 * 1024 * 1024;

/**
 * Starts the server in a process group of its own: Ctrl-C reaches the programs that use it
 * first, and they stop it when they are done. Returns its process number at once.
 */
export async function launch(
  data: string,
  port: number,
  settings: Readonly<Record<string, string>>,
  binaries: Binaries,
  identity: Identity,
): Promise<number> {
  const logFile = `${data}.log`;
  const size = await stat(logFile).then(
    (found) => found.size,
    () => 0,
  );
  const log = openSync(logFile, size > biggestLog ? 'w' : 'a', 0o600);
  const all = {
    listen_addresses: '127.0.0.1',
    unix_socket_directories: '',
    timezone: 'UTC',
    log_timezone: 'UTC',
    ...settings,
  };
  const flags = Object.entries(all).flatMap(([key, value]) => ['-c', `${key}=${value}`]);
  const [file, args, options] = identity.command(binaries.postgres, [
    '-D',
    data,
    '-p',
    String(port),
    ...flags,
  ]);
  try {
    const child = spawn(file, args, { ...options, detached: true, stdio: ['ignore', log, log] });
    return await new Promise<number>((resolve, reject) => {
      child.once('error', reject);
      child.once('spawn', () => {
        child.unref();
        resolve(child.pid ?? -1);
      });
    });
  } finally {
    closeSync(log);
  }
}

/** The end of the server's log, for an error message. */
export async function lastWords(data: string): Promise<string> {
  const text = await readFile(`${data}.log`, 'utf8').catch(() => '');
  return text.split('\n').slice(-8).join('\n');
}
