import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { alive, readPidFile, serves } from './server.ts';
import { startEmbedded, type Embedded } from './start.ts';

const prefix = 'curewright-database-';
const named = new RegExp(`^${prefix}(\\d+)-`);

/** Of databases that nobody keeps: they need not survive a crash. */
const careless = {
  fsync: 'off',
  synchronous_commit: 'off',
  full_page_writes: 'off',
  max_connections: '300',
};

/**
 * A server in an empty temporary folder that `stop()` deletes. It ends with this process; if
 * this process is killed outright, the next throw-away server clears up behind it.
 */
export async function startThrowAway(): Promise<Embedded> {
  await clearLeftovers();
  const folder = await mkdtemp(join(tmpdir(), `${prefix}${String(process.pid)}-`));
  const server = await startEmbedded({ folder, settings: careless });
  const stop = async (): Promise<void> => {
    await server.stop();
    await rm(folder, { recursive: true, force: true });
  };
  return Object.freeze({ ...server, stop });
}

/** Ends the servers of processes that are gone, and deletes their folders. */
async function clearLeftovers(): Promise<void> {
  const names = await readdir(tmpdir());
  for (const name of names) {
    const found = named.exec(name);
    if (found === null || alive(Number(found[1]))) continue;
    const folder = join(tmpdir(), name);
    const data = join(folder, 'data');
    const left = await readPidFile(data);
    if (left !== null && (await serves(left.pid, data))) process.kill(left.pid, 'SIGQUIT');
    // Another user's, or still closing: the next one's business.
    await rm(folder, { recursive: true, force: true }).catch(() => undefined);
  }
}
