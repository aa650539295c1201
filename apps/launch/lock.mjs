import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

const pollMs = 250;
const unwrittenMs = 5000;

/**
 * Runs `work` while no other process of this clone does: two commands started together in a
 * fresh clone must not both install. The lock file holds its owner's process id, so that the
 * lock of a process that died is taken over.
 */
export async function withLock(root, work) {
  const folder = join(root, '.curewright');
  const file = join(folder, 'setup.lock');
  mkdirSync(folder, { recursive: true });
  await acquire(file);
  try {
    return await work();
  } finally {
    rmSync(file, { force: true });
  }
}

async function acquire(file) {
  const me = String(process.pid);
  let told = false;
  for (;;) {
    try {
      writeFileSync(file, me, { flag: 'wx' });
      return;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
    }
    if (abandoned(file)) {
      // Several may take it over at once: the last to write wins, the others see its id.
      writeFileSync(file, me);
      await sleep(pollMs);
      if (holder(file) === me) return;
    } else if (!told) {
      told = true;
      console.error(`Waiting for process ${holder(file) ?? '?'}, which is setting up this clone.`);
    }
    await sleep(pollMs);
  }
}

/** The owner's id, or undefined when the lock was released meanwhile. */
function holder(file) {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
}

function abandoned(file) {
  const owner = holder(file);
  if (owner === undefined) return false;
  if (owner === '')
    return (
      Date.now() - (statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? Infinity) > unwrittenMs
    );
  try {
    process.kill(Number(owner), 0);
    return false;
  } catch (error) {
    return error.code === 'ESRCH';
  }
}
