import { setTimeout as sleep } from 'node:timers/promises';
import { PrismaPg } from '@prisma/adapter-pg';
import { Pool, type PoolClient } from 'pg';
import { Prisma, PrismaClient } from './generated/client.ts';

export type Transaction = Prisma.TransactionClient;

/** On whose behalf a transaction works; `personId` null where nobody signed in does (worker, seeds). */
export interface Actor {
  readonly yardId: string;
  readonly personId: string | null;
}

export interface TransactionOptions {
  /** How long the work may take, ms; default 15,000. */
  readonly timeout?: number;
  readonly isolationLevel?: Prisma.TransactionIsolationLevel;
  /** How often it is begun anew after a deadlock or a serialization failure; default 3. */
  readonly retries?: number;
}

/**
 * A client of the database at `url`, to be closed with `$disconnect()`. The session's zone is
 * UTC whatever the server's: Prisma's adapter takes every instant for UTC, unread.
 */
export function createClient(
  url: string,
  options: { readonly connections?: number } = {},
): PrismaClient {
  const pool = new Pool({
    connectionString: url,
    max: options.connections ?? 10,
    options: '-c TimeZone=UTC',
  });
  pool.on('connect', oneAtATime);
  return new PrismaClient({ adapter: new PrismaPg(pool, { disposeExternalPool: true }) });
}

/**
 * Prisma sends the queries of nested records at once, in one transaction, over one connection.
 * The driver queues them, but gives notice that its next version will not: queue them here.
 */
function oneAtATime(connection: PoolClient): void {
  const send = connection.query.bind(connection) as (...args: unknown[]) => unknown;
  let last: Promise<unknown> = Promise.resolve();
  const query = (...args: unknown[]): unknown => {
    // With a callback it is the pool's own, on a connection that nobody else has.
    if (typeof args.at(-1) === 'function') return send(...args);
    const answer = last.then(() => send(...args));
    last = answer.catch(() => undefined);
    return answer;
  };
  connection.query = query as typeof connection.query;
}

/**
 * One transaction of a yard. It sets `curewright.yard` and `curewright.person` first, so that
 * row-level security can be switched on without touching a query. `work` may run more than
 * once and must have no effect but on `tx`.
 */
export function inYard<T>(
  prisma: PrismaClient,
  actor: Actor,
  work: (tx: Transaction) => Promise<T>,
  options: TransactionOptions = {},
): Promise<T> {
  return transaction(prisma, actor.yardId, actor.personId ?? '', work, options);
}

/** One transaction on what belongs to no yard: accounts and sessions, and the list of yards. */
export function withoutYard<T>(
  prisma: PrismaClient,
  work: (tx: Transaction) => Promise<T>,
  options: TransactionOptions = {},
): Promise<T> {
  return transaction(prisma, '', '', work, options);
}

async function transaction<T>(
  prisma: PrismaClient,
  yard: string,
  person: string,
  work: (tx: Transaction) => Promise<T>,
  { timeout = 15_000, isolationLevel, retries = 3 }: TransactionOptions,
): Promise<T> {
  for (let attempt = 0; ; attempt += 1) {
    try {
      return await prisma.$transaction(
        async (tx) => {
          await tx.$executeRaw`SELECT set_config('curewright.yard', ${yard}, true), set_config('curewright.person', ${person}, true)`;
          return work(tx);
        },
        { maxWait: 10_000, timeout, ...(isolationLevel === undefined ? {} : { isolationLevel }) },
      );
    } catch (error) {
      if (attempt >= retries || !isConflict(error)) throw error;
      await sleep(10 * 2 ** attempt);
    }
  }
}

/** P2034: the server chose this transaction to give way; the same again may well succeed. */
const isConflict = (error: unknown): boolean =>
  error instanceof Prisma.PrismaClientKnownRequestError && error.code === 'P2034';
