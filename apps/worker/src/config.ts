import { z } from 'zod';
import { databaseAddress, readEnvironment, wholeNumber } from '#host/environment.ts';

const environment = z.object({
  DATABASE_URL: databaseAddress,
  /** Runs at once; each takes a core for itself. */
  WORKER_CONCURRENCY: wholeNumber(1, 16).default(1),
});

export interface Config {
  readonly databaseUrl: string;
  readonly concurrency: number;
}

/** Reads the environment once at start; throws one message that names every wrong variable. */
export function readConfig(env: Readonly<Record<string, string | undefined>>): Config {
  const { DATABASE_URL, WORKER_CONCURRENCY } = readEnvironment(environment, env);
  return { databaseUrl: DATABASE_URL, concurrency: WORKER_CONCURRENCY };
}
