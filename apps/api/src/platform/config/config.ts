import { z } from 'zod';
import { databaseAddress, readEnvironment, wholeNumber } from '#host/environment.ts';

/** Flags come as text: `1`, `true` and `yes` switch on. */
const flag = z.stringbool().default(false);

const environment = z.object({
  DATABASE_URL: databaseAddress,
  PORT: wholeNumber(0, 65_535).default(3000),
  HOST: z.string().min(1).default('127.0.0.1'),
  /** Behind TLS the session cookie is only sent over it. */
  SECURE_COOKIE: flag,
  /** Demo passwords are printed at start: a public address with them must be asked for. */
  ALLOW_PUBLIC_DEMO: flag,
});

export interface Config {
  readonly databaseUrl: string;
  readonly port: number;
  readonly host: string;
  readonly secureCookie: boolean;
  readonly allowPublicDemo: boolean;
}

/** Reads the environment once at start; throws one message that names every wrong variable. */
export function readConfig(env: Readonly<Record<string, string | undefined>>): Config {
  const { DATABASE_URL, PORT, HOST, SECURE_COOKIE, ALLOW_PUBLIC_DEMO } = readEnvironment(
    environment,
    env,
  );
  return {
    databaseUrl: DATABASE_URL,
    port: PORT,
    host: HOST,
    secureCookie: SECURE_COOKIE,
    allowPublicDemo: ALLOW_PUBLIC_DEMO,
  };
}

export function isPublicHost(host: string): boolean {
  return !['127.0.0.1', '::1', 'localhost'].includes(host);
}

export const configToken = Symbol('config');
