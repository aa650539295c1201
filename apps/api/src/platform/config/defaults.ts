import { randomBytes } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Config, DatabaseTimeouts } from './config.ts';

export const databaseTimeouts: DatabaseTimeouts = {
  statementMs: 15_000,
  lockMs: 10_000,
  idleMs: 30_000,
};

export const builtScreens = fileURLToPath(new URL('../../../../web/dist/', import.meta.url));

/** One a process: two services of one test share it, and no key that anybody could know is in the code. */
const secretKey = randomBytes(32);

/** A service of this process alone, over a database: no limits that a test would run into. */
export function withDefaults({
  port = 3000,
  ...options
}: Pick<Config, 'databaseUrl'> & Partial<Config>): Config {
  return {
    port,
    host: '127.0.0.1',
    publicUrl: localUrl(port),
    secureCookie: false,
    secretKey,
    trustProxy: 0,
    mail: { folder: join(tmpdir(), `curewright-mail-${String(process.pid)}`) },
    mailFrom: 'Curewright <curewright@localhost>',
    photoFolder: join(tmpdir(), `curewright-photos-${String(process.pid)}`),
    screensFolder: builtScreens,
    sessionIdleMinutes: 720,
    sessionDays: 14,
    introspection: true,
    requestsPerMinute: 1_000_000,
    signInAttempts: 1_000,
    allowPublicDemo: false,
    pushToLocal: false,
    timeouts: databaseTimeouts,
    ...options,
  };
}

export const localUrl = (port: number): URL => new URL(`http://localhost:${String(port)}`);
