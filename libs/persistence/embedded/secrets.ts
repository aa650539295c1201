import { randomBytes } from 'node:crypto';
import { readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';

const secretsSchema = z.object({
  port: z.int().nullable(),
  adminPassword: z.string(),
  ownerPassword: z.string(),
  servicePassword: z.string(),
});

/** Passwords made at initialisation, and the port used last; kept in the folder, mode 0600. */
export type Secrets = z.infer<typeof secretsSchema>;

const fileOf = (folder: string): string => join(folder, 'secrets.json');

export async function readSecrets(folder: string): Promise<Secrets | null> {
  try {
    return secretsSchema.parse(JSON.parse(await readFile(fileOf(folder), 'utf8')));
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return null;
    throw new Error(`${fileOf(folder)} cannot be read`, { cause: error });
  }
}

export async function writeSecrets(folder: string, secrets: Secrets): Promise<void> {
  const next = `${fileOf(folder)}.${String(process.pid)}`;
  await writeFile(next, `${JSON.stringify(secrets)}\n`, { mode: 0o600 });
  await rename(next, fileOf(folder));
}

export function freshSecrets(): Secrets {
  const password = (): string => randomBytes(24).toString('base64url');
  return {
    port: null,
    adminPassword: password(),
    ownerPassword: password(),
    servicePassword: password(),
  };
}
