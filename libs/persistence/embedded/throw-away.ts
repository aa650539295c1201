import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startEmbedded, type Embedded } from './start.ts';

/** A server on an empty folder of its own that `stop()` deletes; it does not survive a crash. */
export async function startThrowAway(stopOnSignal = true): Promise<Embedded> {
  const folder = await mkdtemp(join(tmpdir(), 'curewright-database-'));
  const server = await startEmbedded({
    folder,
    stopOnSignal,
    settings: {
      fsync: 'off',
      synchronous_commit: 'off',
      full_page_writes: 'off',
      max_connections: '300',
    },
  });
  const stop = async (): Promise<void> => {
    await server.stop();
    await rm(folder, { recursive: true, force: true });
  };
  return Object.freeze({ ...server, stop });
}
