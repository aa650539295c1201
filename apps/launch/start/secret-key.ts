import { randomBytes } from 'node:crypto';
import { chmod, link, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * The key of the service that the folder keeps, base64: made at the first start, then always the
 * same, or what was encrypted under it (secrets of second factors) could not be read again.
 */
export async function keptSecretKey(folder: string): Promise<string> {
  const file = join(folder, 'secret-key');
  const known = await readFile(file, 'utf8').catch(() => null);
  if (known !== null) {
    // Whoever copied the folder may have widened its rights.
    await chmod(file, 0o600);
    return known.trim();
  }
  const fresh = join(folder, `secret-key-${randomBytes(6).toString('hex')}`);
  await writeFile(fresh, `${randomBytes(32).toString('base64')}\n`, { mode: 0o600, flag: 'wx' });
  try {
    // All or nothing, and only one of two that start at once.
    await link(fresh, file);
  } catch (error) {
    const isTaken = error instanceof Error && 'code' in error && error.code === 'EEXIST';
    if (!isTaken) throw error;
  } finally {
    await rm(fresh, { force: true });
  }
  return (await readFile(file, 'utf8')).trim();
}
