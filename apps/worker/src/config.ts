import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { databaseAddress, readEnvironment, wholeNumber } from '#host/environment.ts';
import { pushContact, pushVariables } from '#host/push-variables.ts';
import { serviceVariables } from '#host/service-variables.ts';
import { LEAST_MB } from '#host/threads/memory.ts';

const { SECRET_KEY, PUBLIC_URL, MAIL_FROM } = serviceVariables.shape;

const environment = z.object({
  DATABASE_URL: databaseAddress,
  /** Signs notifications: the same as the api's. */
  SECRET_KEY,
  PUBLIC_URL,
  MAIL_FROM,
  ...pushVariables.shape,
  /** Runs at once. */
  WORKER_CONCURRENCY: wholeNumber(1, 16).default(1),
  /** Threads of each run; the cores at hand are shared out where it is not set. */
  WORKER_THREADS: wholeNumber(1, 64).optional(),
  /** Megabytes for the threads of each run together. */
  WORKER_MEMORY: wholeNumber(LEAST_MB, 1_048_576).optional(),
  /** Iterations of each search for a price. */
  WORKER_PRICE_EFFORT: wholeNumber(1, 100_000).default(200),
});

export interface Config {
  readonly databaseUrl: string;
  readonly concurrency: number;
  readonly threads: number;
  /** Null: no limit. */
  readonly memoryMB: number | null;
  /** Iterations of each search for a price. */
  readonly priceEffort: number;
  /** 32 bytes, the api's as well. */
  readonly secretKey: Uint8Array;
  /** `mailto:` or https: whom a push service turns to (RFC 8292). */
  readonly pushContact: string;
  /** For tests: a push service of this machine. */
  readonly pushToLocal: boolean;
}

const options = { threads: { type: 'string' }, memory: { type: 'string' } } as const;

/**
 * Reads the environment once at start, and the words `--threads K` and `--memory MB`, which come
 * before it. Throws one message that names every wrong variable or word, its value and what it
 * should be.
 */
export function readConfig(
  env: Readonly<Record<string, string | undefined>>,
  words: readonly string[] = [],
): Config {
  const { threads, memory } = parseArgs({ args: [...words], options }).values;
  const given = {
    ...env,
    ...(threads === undefined ? {} : { WORKER_THREADS: threads }),
    ...(memory === undefined ? {} : { WORKER_MEMORY: memory }),
  };
  const read = readEnvironment(environment, given, {
    ...(threads === undefined ? {} : { WORKER_THREADS: '--threads' }),
    ...(memory === undefined ? {} : { WORKER_MEMORY: '--memory' }),
  });
  const concurrency = read.WORKER_CONCURRENCY;
  return {
    databaseUrl: read.DATABASE_URL,
    concurrency,
    threads: read.WORKER_THREADS ?? Math.max(1, Math.floor(availableParallelism() / concurrency)),
    memoryMB: read.WORKER_MEMORY ?? null,
    priceEffort: read.WORKER_PRICE_EFFORT,
    secretKey: read.SECRET_KEY,
    pushContact: pushContact(read),
    pushToLocal: read.PUSH_TO_LOCAL,
  };
}
